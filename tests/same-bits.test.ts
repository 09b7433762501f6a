/**
 * A seed must give the same practice limb in every engine, bit for bit: it is run here, as one plain script in
 * Node, and in a real Chromium, whose engine is another version. Engines may differ in `Math.exp`, `sin`, `pow`
 * (ECMA-262, section 21.3.2: "implementation-approximated"), so a scan also holds the source free of them.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join, sep } from "node:path";
import { runInThisContext } from "node:vm";
import { build } from "esbuild";
import { chromium } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { findChromium, howToGetOne } from "../scripts/find-chromium.mjs";
import { Fingerprint } from "../src/practice/testing/fingerprint.js";

const root = join(import.meta.dirname, "..");
const folder = join(root, "src/practice");

async function oneScript(): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [join(folder, "testing/same-bits.ts")],
    bundle: true,
    write: false,
    format: "iife",
    globalName: "limb",
    target: "es2022",
    logLevel: "warning",
  });
  return `${outputFiles[0]!.text}\nlimb.sameBits();`;
}

describe("the practice limb has the same bits", () => {
  let script = "";
  let here: Record<string, string> = {};
  beforeAll(async () => {
    script = await oneScript();
    here = runInThisContext(script);
  }, 60_000);

  test("in every run of one engine", () => {
    expect(Object.keys(here)).toContain("body at 125 samples/s");
    expect(runInThisContext(script)).toEqual(here);
  });

  const path = findChromium();
  if (path === null) {
    const words = `left out: the same in a real browser, since no Chromium was found; ${howToGetOne}`;
    console.log(words);
    test(words, () => {
      // Where it must not be left out, say so in the environment.
      expect(process.env.CHROMIUM_REQUIRED, words).toBeUndefined();
    });
  } else {
    test("in Chromium", async () => {
      const root = process.getuid?.() === 0;
      const browser = await chromium.launch({
        executablePath: path,
        headless: true,
        args: ["--disable-gpu", "--disable-background-networking", ...(root ? ["--no-sandbox"] : [])],
      });
      try {
        const page = await browser.newPage();
        expect(await page.evaluate(script)).toEqual(here);
      } finally {
        await browser.close();
      }
    }, 60_000);
  }

  test("and its names would show a difference in one last place", () => {
    const name = (...values: number[]) => new Fingerprint().add(...values).text;
    expect(name(1, 2)).toBe(name(1, 2));
    expect(name(1, 2)).not.toBe(name(2, 1));
    expect(name(0)).not.toBe(name(-0));
    expect(name(1)).not.toBe(name(1 + Number.EPSILON));
    expect(name(Number.NaN)).toBe(name(-Number.NaN));
  });
});

/** Exact by ECMA-262 or by IEEE 754, or plain integer work. */
const exact = ["abs", "ceil", "floor", "fround", "imul", "max", "min", "round", "sign", "sqrt", "trunc"];

/** What in a source may differ between engines, comments and texts left aside. */
function inexact(source: string): string[] {
  const bare = source
    .replace(/\/\*[\s\S]*?\*\//g, "")
    .replace(/\/\/.*$/gm, "")
    .replace(/"(?:[^"\\\n]|\\.)*"/g, '""');
  const calls = [...bare.matchAll(/\bMath\s*\.\s*([a-z]\w*)/g)].map((match) => match[1] as string);
  return [
    ...calls.filter((name) => !exact.includes(name)).map((name) => `Math.${name}`),
    ...(/\*\*/.test(bare) ? ["**"] : []),
    ...(/\bMath\s*(?:\[|[;,)]|\}\s*=)|=\s*Math\b(?!\s*\.)/.test(bare) ? ["Math itself, passed on"] : []),
    ...(/\.sort\(\s*\)|toLocale|\bIntl\b|\bDate\b/.test(bare) ? ["order or text of the place"] : []),
  ];
}

describe("the source of the practice limb uses nothing that engines may compute differently", () => {
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter(
    (name) => /\.ts$/.test(name) && !/\.test\.ts$/.test(name) && !name.split(sep).includes("testing"),
  );
  test.each(files)("%s", (name) => {
    expect(inexact(readFileSync(join(folder, name), "utf8"))).toEqual([]);
  });
  test.each([
    "Math.exp(1)",
    "x ** 2",
    "const { sin } = Math;",
    "Math . pow(2, 3)",
    'Math["cos"](1)',
    "f(Math)",
  ])("the scan would find %s", (source) => expect(inexact(source)).not.toEqual([]));
  test("and leaves comments, texts and exact functions alone", () => {
    expect(inexact('/** 2 ** 3, Math.exp */ const a = "Math.pow"; // **\nMath.sqrt(Math.PI)')).toEqual([]);
  });
});
