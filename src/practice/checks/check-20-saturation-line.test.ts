/** Check 20 of the model's physiology: the textbook line against light through blood. */
import { describe, expect, test } from "vitest";
import { absorption, ratioOfRatios, textbookSaturation } from "../light/index.js";
import { indexOf, runProbe, undisturbed } from "../testing/probe-run.js";

/** R of a small pulse: with little blood, PI is absorption times the change of path. */
function ratioAt(saturation: number): number {
  return absorption("red", saturation) / absorption("infrared", saturation);
}

// The line 110 − 25 R is common practice, no source; the absorptions are the published table times one fitted path
// ratio, set where R is 1. Everything but that point is a prediction.
describe("textbook line against blood's absorption (prediction, one point fitted)", () => {
  test.each([80, 82, 84, 85, 86, 88, 90, 92, 94, 96, 97, 98])("at %d %% within 2 %%", (saturation) => {
    expect(Math.abs(textbookSaturation(ratioAt(saturation / 100)) - saturation)).toBeLessThan(2);
  });
  test("fitted: R is 1 at 85 %", () => {
    expect(ratioAt(0.85)).toBeCloseTo(1, 1);
  });
  test("prediction: at 70 % it reads about 3 % low (66.6 with the digit's own use of oxygen, 66.9 without)", () => {
    expect(textbookSaturation(ratioAt(0.7))).toBeCloseTo(66.9, 1);
  });
  test("without the path ratio R at 97 % would be 0.34 and the line would read 101.5 %: plain absorption does not do", () => {
    const plain = ratioAt(0.97) / 1.53;
    expect(plain).toBeCloseTo(0.34, 2);
    expect(textbookSaturation(plain)).toBeGreaterThan(100);
  });
});

describe("the same through the whole probe", () => {
  test.each([80, 85, 90, 97])("pulse and level of both colours give %d %% within 2 %%", (saturation) => {
    const run = runProbe({
      seconds: 10,
      spread: 0,
      saturation: saturation / 100,
      bits: 24,
      set: undisturbed,
    });
    // One beat at 70 /min, late enough for everything to have settled.
    const [from, to] = [500, 500 + 107];
    const ratio = ratioOfRatios(
      indexOf(run.red.subarray(from, to)),
      indexOf(run.infrared.subarray(from, to)),
    );
    expect(Math.abs(textbookSaturation(ratio) - saturation)).toBeLessThan(2);
  });
});
