/** A storage that fails in mid-writing: nothing is lost, doubled or put out of order. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { CaseEvent } from "../case/index.js";
import type { StoreNews } from "./event-store.js";
import { failureOf, type StoreFailure, storeFailure } from "./store-failure.js";
import { note } from "./testing/store-contract.js";
import { createWriteQueue } from "./write-queue.js";

/** A storage that answers as told, one answer a write, then well. */
function storage(answers: (StoreFailure | Error | null)[]) {
  const kept: CaseEvent[] = [];
  const news: StoreNews[] = [];
  const write = async (events: readonly CaseEvent[]) => {
    await Promise.resolve();
    const answer = answers.shift() ?? null;
    if (answer instanceof Error) throw answer;
    if (answer === null) kept.push(...events);
    return answer;
  };
  return { kept, news, queue: createWriteQueue(write, (one) => news.push(one)) };
}

const full = storeFailure("full");
const taken = storeFailure("taken");
const seqs = (events: readonly CaseEvent[]) => events.map((event) => event.seq);

describe("the write queue", () => {
  test("holds what a full storage did not take, and all after it, and writes it in order at the next append", async () => {
    const { kept, news, queue } = storage([null, full]);
    const calls = [0, 1, 2].map((seq) => queue.append([note("a", seq)]));
    expect((await Promise.all(calls)).map((result) => result.ok)).toEqual([true, false, false]);
    expect(seqs(queue.waiting)).toEqual([1, 2]);
    expect(news.at(-1)).toMatchObject({ type: "trouble", failure: { code: "full" }, waiting: 2 });
    expect(await queue.append([note("a", 3)])).toMatchObject({ ok: true });
    expect(seqs(kept)).toEqual([0, 1, 2, 3]);
    expect(queue.waiting).toEqual([]);
  });

  test("tries again on flush, and says when it was in vain", async () => {
    const { kept, queue } = storage([full, full]);
    await queue.append([note("a", 0)]);
    expect(await queue.flush()).toMatchObject({ ok: false, failure: { code: "full" } });
    expect(await queue.flush()).toMatchObject({ ok: true });
    expect(seqs(kept)).toEqual([0]);
  });

  test("takes a storage that throws as one that failed, and loses nothing", async () => {
    const { kept, queue } = storage([new Error("disk on fire")]);
    const result = await queue.append([note("a", 0)]);
    expect(result).toMatchObject({ failure: { code: "failed", detail: "Error: disk on fire" } });
    await queue.flush();
    expect(seqs(kept)).toEqual([0]);
  });

  test("goes on after a batch that is refused, also when it had waited, and tells of it", async () => {
    const { kept, news, queue } = storage([full, taken]);
    await queue.append([note("a", 0)]);
    expect(await queue.append([note("a", 1)])).toMatchObject({ ok: true });
    expect(seqs(kept)).toEqual([1]);
    expect(news.find((one) => one.type === "refused")).toMatchObject({ events: [{ seq: 0 }] });
  });

  test("writes each batch once when a listener appends on hearing of the one before", async () => {
    const writes: number[] = [];
    const queue = createWriteQueue(
      async ([event]) => {
        writes.push(event!.seq);
        return null;
      },
      () => {
        if (writes.length < 4) void queue.append([note("a", writes.length)]);
      },
    );
    await queue.append([note("a", 0)]);
    await queue.flush();
    expect(writes).toEqual([0, 1, 2, 3]);
  });

  test("whatever fails when: each event is kept once, refused or waits, and what is kept is in order", async () => {
    const answer = fc.constantFrom(null, null, full, taken, new Error("gone"));
    const plan = fc.array(fc.tuple(answer, fc.boolean()), { minLength: 1, maxLength: 20 });
    await fc.assert(
      fc.asyncProperty(plan, async (steps) => {
        const { kept, news, queue } = storage(steps.map(([one]) => one));
        const calls: Promise<unknown>[] = [];
        for (const [seq, [, wait]] of steps.entries()) {
          const call = queue.append([note("a", seq)]);
          calls.push(call);
          if (wait) await call;
        }
        await Promise.all(calls);
        const refused = news.flatMap((one) => (one.type === "refused" ? one.events : []));
        const all = [...seqs(kept), ...seqs(refused), ...seqs(queue.waiting)];
        expect(all.sort((x, y) => x - y)).toEqual(steps.map((_, seq) => seq));
        const order = [...seqs(kept), ...seqs(queue.waiting)];
        expect(order).toEqual([...order].sort((x, y) => x - y));
      }),
    );
  });
});

// Names by Web IDL, section 2.8.1, and the Indexed Database API 3.0.
test.each([
  ["QuotaExceededError", "full"],
  ["VersionError", "outdated"],
  ["UnknownError", "failed"],
  ["AbortError", "failed"],
])("a %s is %s", (name, code) => {
  expect(failureOf(new DOMException("words", name))).toMatchObject({ code, detail: `${name}: words` });
});
