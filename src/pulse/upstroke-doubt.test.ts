import { describe, expect, test } from "vitest";
import { isBeyondDoubt, patienceInDoubt } from "./upstroke-doubt.js";
import type { UsualUpstroke } from "./usual-upstroke.js";

/** Rise 100, interval 60 inner samples, silence of 144 a loss. */
const usual = { rise: 100, interval: 60, patience: 144, longest: 62, alike: 0.99 } as UsualUpstroke;

describe("an upstroke is a pulse beyond doubt", () => {
  test.each([
    { rise: 100, like: 0.96, sure: true, why: "alike and of the usual size" },
    { rise: 100, like: 0.85, sure: false, why: "unlike" },
    { rise: 250, like: 0.96, sure: false, why: "over twice the size, as the edge of a step" },
    { rise: 40, like: 0.96, sure: false, why: "under half the size, as what is left of a pulse" },
    { rise: 40, like: 0.985, sure: true, why: "small but very alike, as an early beat" },
    { rise: 320, like: 1, sure: false, why: "over three times the size, however alike" },
    { rise: 25, like: 1, sure: false, why: "under 0.3 of the size, however alike" },
    { rise: Number.NaN, like: Number.NaN, sure: false, why: "not known" },
  ])("$rise %, $like: $sure ($why)", ({ rise, like, sure }) => {
    expect(isBeyondDoubt(usual, rise, like)).toBe(sure);
  });

  test("at a lower likeness where the usual ones differ more", () => {
    expect(isBeyondDoubt({ ...usual, alike: 0.9 }, 100, 0.85)).toBe(true);
  });
});

describe("one in doubt keeps the watch waiting", () => {
  // The bar, 3 intervals of 60 after the last pulse beyond doubt, less 0.1 s of delay: 180 - 6.
  test.each([12, 30, 60, 85, 95])(
    "if %d samples after a sure one, not beyond three intervals from it",
    (since) => {
      const wait = patienceInDoubt(usual, since);
      expect(since + wait).toBeLessThanOrEqual(174);
      expect(wait).toBeLessThan(usual.patience);
    },
  );

  test.each([12, 60, 120, 300])("but, %d samples after it, for the longest interval at least", (since) => {
    expect(patienceInDoubt(usual, since)).toBeGreaterThan(usual.longest);
  });

  test("longer where the usual upstrokes are unlike each other", () => {
    const uneven = { ...usual, alike: 0.8 };
    expect(patienceInDoubt(uneven, 60)).toBeGreaterThan(patienceInDoubt(usual, 60));
    expect(patienceInDoubt(uneven, 60)).toBeLessThan(usual.patience);
  });
});
