/** The browser's database in a real Chromium: the contract, and what a browser can do to a record. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { findChromium, howToGetOne } from "../../scripts/find-chromium.mjs";
import type * as inPage from "./testing/browser-page.js";
import { type PageServer, servePage } from "./testing/page-server.js";
import { type RealBrowser, startBrowser } from "./testing/real-browser.js";
import { storeContract } from "./testing/store-contract.js";

type InPage = typeof inPage;
type Callable = {
  [K in keyof InPage]: InPage[K] extends (...args: never[]) => Promise<unknown> ? K : never;
}[keyof InPage];

/** Calls a function of `browser-page.ts` inside the page. */
function call<K extends Callable>(
  page: Page,
  name: K,
  ...args: unknown[]
): Promise<Awaited<ReturnType<InPage[K]>>> {
  return page.evaluate(
    ([name, args]) => {
      const { page } = globalThis as unknown as { page: Record<string, (...args: unknown[]) => unknown> };
      return page[name]!(...args);
    },
    [name, args] as const,
  ) as Promise<Awaited<ReturnType<InPage[K]>>>;
}

const path = findChromium();
if (path === null) {
  const words = `left out: the browser store in a real browser, since no Chromium was found; ${howToGetOne}`;
  console.log(words);
  test(words, () => {
    // Where it must not be left out, say so in the environment.
    expect(process.env["CHROMIUM_REQUIRED"], words).toBeUndefined();
  });
} else {
  const folders: string[] = [];
  const profile = () => {
    folders.push(mkdtempSync(join(tmpdir(), "limbtide-store-")));
    return folders.at(-1)!;
  };
  let server: PageServer;
  beforeAll(async () => {
    server = await servePage();
  }, 60_000);
  afterAll(async () => {
    await server?.close();
    for (const folder of folders)
      rmSync(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
  });

  describe("the browser store", () => {
    let real: RealBrowser;
    beforeAll(async () => {
      real = await startBrowser(path, profile(), server.url);
    }, 60_000);
    afterAll(() => real?.close());

    test.each(storeContract)("$name", async ({ name }) => {
      expect(await call(real.page, "promise", name)).toBe("kept");
    });

    test("asks for each write to reach the disk itself", async () => {
      expect(await call(real.page, "durability")).toEqual(["strict"]);
    });

    test("when full in mid-batch: keeps nothing of it, holds it, and writes it in order once there is room", async () => {
      expect(await call(real.page, "fullInMidBatch")).toEqual({
        answer: "full",
        during: [0],
        waiting: [1, 2],
        later: "ok",
        after: [0, 1, 2, 3],
        news: ["kept", "trouble", "kept", "kept"],
      });
    });

    test("opens a connection the browser has cut, and writes on", async () => {
      expect(await call(real.page, "cutConnection")).toEqual({ answer: "ok", cuts: 2, kept: [0, 1] });
    });

    test("lets go for a newer program, finishes what is under way, holds the rest and says so", async () => {
      expect(await call(real.page, "newerProgram")).toEqual({
        answers: ["ok", "ok", "outdated"],
        again: "outdated",
        there: [0],
        waiting: [1],
        heard: ["kept", "outdated"],
      });
    });

    test("says when another tab holds an older version open, and does not hold on to a late answer", async () => {
      expect(await call(real.page, "olderProgramHolds")).toEqual({ answer: "blocked", closed: 2 });
    });

    test.each(["forbidden", "broken"] as const)(
      "falls back to memory where the database is %s, and says so",
      async (how) => {
        expect(await call(real.page, "noDatabase", how)).toEqual({
          kind: "memory",
          lasting: false,
          failure: "no-database",
          answer: "ok",
          kept: [0],
        });
      },
    );

    test("reads around torn and misplaced rows, tells of each, and still lists the case", async () => {
      expect(await call(real.page, "tornRows")).toEqual({
        seqs: [0, 3],
        problems: ["event-not-plain", "event-not-plain", "event-misplaced"],
        cases: [{ id: "case-1", events: 5, lastAt: 1003 }],
      });
    });

    test("serves two tabs that write at once, and a page loaded again", async () => {
      const other = await real.browser.contexts()[0]!.newPage();
      await other.goto(server.url);
      const both = [
        call(real.page, "appendSome", "tabs", "a", 40),
        call(other, "appendSome", "tabs", "b", 40),
      ];
      expect(await Promise.all(both)).toEqual([["ok"], ["ok"]]);
      await other.close();
      await real.page.reload();
      const expected = ["a", "b"].flatMap((device) =>
        Array.from({ length: 40 }, (_, seq) => `${device}${seq}`),
      );
      expect(await call(real.page, "seqsOf", "tabs")).toEqual(expected);
    });
  });

  test("in a storage that is really full: holds what finds no room, and writes it once there is", async () => {
    // A browser of its own: a quota set later is noticed only after a while.
    const real = await startBrowser(path, profile(), server.url);
    try {
      const session = await real.browser.contexts()[0]!.newCDPSession(real.page);
      const origin = server.url;
      await session.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 400_000 });
      const { answer, appended, waiting } = await call(real.page, "fill", 60);
      expect({ answer, waiting }).toEqual({ answer: "full", waiting: 100 });
      await session.send("Storage.overrideQuotaForOrigin", { origin });
      await expect
        .poll(() => call(real.page, "flushFilled"), { timeout: 20_000, interval: 200 })
        .toEqual({ answer: "ok", kept: Array.from({ length: appended }, (_, seq) => seq), waiting: 0 });
    } finally {
      await real.close();
    }
  }, 60_000);

  test("S8: a browser killed in mid-writing has lost no event it had said was kept", async () => {
    const folder = profile();
    const tellingOf = 60;
    const first = await startBrowser(path, folder, server.url);
    const second = await first.browser.contexts()[0]!.newPage();
    await second.goto(server.url);
    const acknowledged = { a: -1, b: -1 };
    const enough = new Promise<void>((resolve) => {
      const hear = (device: "a" | "b") => (seq: number) => {
        acknowledged[device] = seq;
        if (acknowledged.a >= tellingOf && acknowledged.b >= tellingOf) resolve();
      };
      const write = async (page: Page, device: "a" | "b") => {
        await page.exposeFunction("told", hear(device));
        const script = `page.writeWithoutEnd("${device}", told)`;
        // Ends only with the browser.
        await page.evaluate(script).catch(() => {});
      };
      void write(first.page, "a");
      void write(second, "b");
    });
    await enough;
    await first.kill();
    const atKill = { ...acknowledged };

    const again = await startBrowser(path, folder, server.url);
    try {
      const { byDevice, problems, whole } = await call(again.page, "found", "killed");
      expect({ problems, whole }).toEqual({ problems: 0, whole: true });
      for (const device of ["a", "b"] as const) {
        const seqs = byDevice[device]!;
        expect(seqs).toEqual(seqs.map((_, i) => i));
        expect(seqs.at(-1)).toBeGreaterThanOrEqual(atKill[device]);
      }
    } finally {
      await again.close();
    }
  }, 60_000);
}
