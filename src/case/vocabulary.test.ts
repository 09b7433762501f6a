/** The record's words are its own, and the same as those of the engine and the rules today. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { verdicts } from "../limb/comparison.js";
import { mechanisms } from "../rules/index.js";
import { caseName, nameWords } from "./case-name.js";
import { answerVerdicts, mechanismCodes } from "./vocabulary.js";

test("verdicts are those of the comparison", () => {
  expect(answerVerdicts).toEqual(verdicts);
});

test("mechanisms are those of the rules", () => {
  expect(mechanismCodes).toEqual(mechanisms.map((row) => row.id));
});

test("no word of the record reassures (S1), and none asks for a person (S10)", () => {
  const folder = import.meta.dirname;
  const files = readdirSync(folder).filter((name) => name.endsWith(".ts") && !name.endsWith(".test.ts"));
  const texts = files.flatMap((name) => [
    ...readFileSync(join(folder, name), "utf8")
      .replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "")
      .matchAll(/"([^"]*)"|^\s*(\w+):/gm),
  ]);
  const words = texts.map((match) => match[1] ?? match[2] ?? "").filter((word) => !word.startsWith("./"));
  expect(words.length).toBeGreaterThan(200);
  const wrong =
    /\b(normal|safe|cleared|ruled out|no injury|perfused|intact|occluded|patient|surname|birth\w*)\b/i;
  expect(words.filter((word) => wrong.test(word))).toEqual([]);
});

test("a case's name is invented, the same for the same draws, and easy to tell from others", () => {
  const draws =
    (...values: number[]) =>
    () =>
      values.shift() ?? 0;
  expect(caseName(draws(0, 17 / 90))).toBe("LARK-27");
  expect(caseName(draws(0.999_999, 0.999_999))).toBe("PUMICE-99");
  expect(new Set(nameWords.map((word) => word.slice(0, 3))).size).toBe(nameWords.length);
});
