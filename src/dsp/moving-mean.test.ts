import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createMovingMean } from "./moving-mean.js";

const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });

describe("moving mean", () => {
  // By definition: the arithmetic mean of what is still in reach.
  test("is the mean of the last samples, or of all while there are fewer", () => {
    fc.assert(
      fc.property(
        fc.array(value, { minLength: 1, maxLength: 60 }),
        fc.integer({ min: 1, max: 20 }),
        (xs, n) => {
          const stage = createMovingMean(n);
          xs.forEach((x, i) => {
            const part = xs.slice(Math.max(0, i + 1 - n), i + 1);
            expect(stage.next(x)).toBeCloseTo(part.reduce((a, b) => a + b, 0) / part.length, 6);
          });
        },
      ),
    );
  });

  test("does not drift: after a spike of 1e15 has passed, small values are exact again", () => {
    const stage = createMovingMean(8);
    stage.next(1e15);
    for (let i = 0; i < 16; i++) stage.next(0.1);
    expect(stage.next(0.1)).toBeCloseTo(0.1, 12);
  });

  test("reset makes it indistinguishable from a new one", () => {
    const used = createMovingMean(5);
    for (const x of [9, 8, 7]) used.next(x);
    used.reset();
    const fresh = createMovingMean(5);
    expect([1, 2, 3, 4, 5, 6].map((x) => used.next(x))).toEqual([1, 2, 3, 4, 5, 6].map((x) => fresh.next(x)));
  });

  test.each([0, -1, 1.5, Number.NaN])("refuses a length of %d", (length) => {
    expect(() => createMovingMean(length)).toThrow(/^size-out-of-range/);
  });

  test("refuses a NaN, which would stay in the sum", () => {
    expect(() => createMovingMean(3).next(Number.NaN)).toThrow(/^non-finite-sample/);
  });
});
