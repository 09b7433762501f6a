import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { practicePage, practicePagePath } from "../../scripts/practice-page.js";

test("docs/practice-limb.md is the page made from the rows (else run scripts/practice-page.ts)", () => {
  expect(readFileSync(practicePagePath, "utf8")).toBe(practicePage());
});
