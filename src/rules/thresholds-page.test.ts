import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { thresholdsPage, thresholdsPagePath } from "../../scripts/thresholds-page.js";
import { mechanisms, rules } from "./index.js";
import { forbiddenIn } from "./testing/forbidden-words.js";

test("docs/thresholds.md is the page made from the rows (else run scripts/thresholds-page.ts)", () => {
  expect(readFileSync(thresholdsPagePath, "utf8")).toBe(thresholdsPage(rules, mechanisms));
});

test("S9: the page shows value, unit, source and support of every row", () => {
  const lines = thresholdsPage(rules, mechanisms).split("\n");
  for (const rule of rules) {
    const line = lines.find((text) => text.startsWith(`| \`${rule.id}\` |`));
    for (const part of [String(rule.value), rule.source, rule.support, rule.text])
      expect(line).toContain(part);
  }
});

test("S1: the page holds none of the forbidden words", () => {
  expect(forbiddenIn(thresholdsPage(rules, mechanisms))).toEqual([]);
});
