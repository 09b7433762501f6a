import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ratesOf, scoreBeats } from "./score-beats.js";

// Worked by hand from the definitions of sensitivity, precision and F1.
describe("beats against marks", () => {
  test.each([
    { why: "all found", found: [1, 2, 3], marked: [1, 2, 3], want: [3, 0, 0] },
    { why: "one missed", found: [1, 3], marked: [1, 2, 3], want: [2, 1, 0] },
    { why: "one extra", found: [1, 1.5, 2], marked: [1, 2], want: [2, 0, 1] },
    { why: "150 ms counts", found: [1.15], marked: [1], want: [1, 0, 0] },
    { why: "151 ms does not", found: [1.151], marked: [1], want: [0, 1, 1] },
    { why: "a mark is used once", found: [0.95, 1.05], marked: [1], want: [1, 0, 1] },
    { why: "greedy by distance would lose one", found: [1.1, 1.2], marked: [0.95, 1.12], want: [2, 0, 0] },
    { why: "nothing found", found: [], marked: [1, 2], want: [0, 2, 0] },
    { why: "nothing marked", found: [1], marked: [], want: [0, 0, 1] },
  ])("$why", ({ found, marked, want }) => {
    const { hits, missed, extra } = scoreBeats(found, marked);
    expect([hits, missed, extra]).toEqual(want);
  });

  test("inside an unmarked span neither counts", () => {
    expect(scoreBeats([1, 5.2, 9], [1, 5.9, 9], [{ from: 5, to: 6 }])).toMatchObject({
      hits: 2,
      missed: 0,
      extra: 0,
    });
  });

  test("rates follow from the counts", () => {
    const rates = ratesOf({ hits: 90, missed: 10, extra: 30 });
    expect(rates.sensitivity).toBe(0.9);
    expect(rates.precision).toBe(0.75);
    expect(rates.f1).toBeCloseTo((2 * 0.9 * 0.75) / (0.9 + 0.75), 12);
    expect(ratesOf({ hits: 0, missed: 0, extra: 0 })).toEqual({
      sensitivity: null,
      precision: null,
      f1: null,
    });
  });

  test("no pairing matches more beats (exhaustive on small sets)", () => {
    const times = fc
      .array(fc.integer({ min: 0, max: 60 }), { maxLength: 5 })
      .map((list) => [...new Set(list)].sort((a, b) => a - b).map((value) => value / 20));
    const best = (found: readonly number[], marked: readonly number[]): number => {
      const [first, ...rest] = found;
      if (first === undefined) return 0;
      const tries = marked.flatMap((mark, i) =>
        Math.abs(mark - first) <= 0.15 + 1e-9 ? [1 + best(rest, marked.toSpliced(i, 1))] : [],
      );
      return Math.max(best(rest, marked), ...tries);
    };
    fc.assert(
      fc.property(times, times, (found, marked) => {
        expect(scoreBeats(found, marked).hits).toBe(best(found, marked));
      }),
    );
  });
});
