import { describe, expect, test } from "vitest";
import { perfusionIndex } from "./perfusion-index.js";

describe("perfusion index", () => {
  // Worked values from the definition 100 × AC/DC.
  test.each([
    { amplitude: 0.02, level: 1, percent: 2 },
    { amplitude: 14, level: 1000, percent: 1.4 },
    { amplitude: 0, level: 5, percent: 0 },
  ])("of $amplitude over $level is $percent %", ({ amplitude, level, percent }) => {
    expect(perfusionIndex(amplitude, level)).toBeCloseTo(percent, 9);
  });

  test.each([
    { amplitude: 1, level: 0, why: "without light" },
    { amplitude: 1, level: -3, why: "around zero" },
    { amplitude: 4, level: 1, why: "with a pulse larger than all the light" },
  ])("does not exist $why (S3)", ({ amplitude, level }) => {
    expect(perfusionIndex(amplitude, level)).toBeNull();
  });
});
