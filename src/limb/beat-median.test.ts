import { describe, expect, test } from "vitest";
import { beatMedian, estimate, halfWidth, median, studentQuantile } from "./beat-median.js";
import { bellNumbers } from "./testing/make-reading.js";

/** First-order process of `n` beats with lag-one correlation `alike`, SD 1, mean 0. */
function beats(n: number, alike: number, bell: () => number): number[] {
  const values = [bell()];
  for (let i = 1; i < n; i++) values.push(alike * values[i - 1]! + Math.sqrt(1 - alike ** 2) * bell());
  return values;
}

describe("quantile of Student's t", () => {
  // Handbook tables, two-sided 5 %: A&S table 26.10 (read against scipy.stats.t.ppf(0.975, df), SciPy, 3 decimals).
  test.each([
    [3, 3.182],
    [4, 2.776],
    [9, 2.262],
    [19, 2.093],
    [29, 2.045],
    [1e6, 1.96],
  ])("with %d degrees of freedom is %d", (freedom, expected) => {
    expect(Math.abs(studentQuantile(freedom) / expected - 1)).toBeLessThan(0.005);
  });
});

describe("median of beats", () => {
  test("is the middle value, or the mean of the two middle ones", () => {
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 2, 3])).toBe(2.5);
  });

  test("has no interval with fewer than five beats", () => {
    expect(beatMedian([1, 2, 3, 4])).toBeNull();
    expect(beatMedian([1, 2, 3, 4, 5])?.count).toBe(5);
  });

  // The truth is known: the median of the process is 0. 95 % is the definition of the interval.
  test.each([
    [12, 0, 0.93],
    [24, 0, 0.93],
    [24, 0.5, 0.93],
    [48, 0.7, 0.92],
  ])("covers the truth, %d beats with correlation %d, in at least %d of trials", (n, alike, least) => {
    const bell = bellNumbers(20_251);
    let covered = 0;
    for (let trial = 0; trial < 2000; trial++) {
      const middle = beatMedian(beats(n, alike, bell))!;
      if (Math.abs(middle.value) <= halfWidth(middle)) covered++;
    }
    expect(covered / 2000).toBeGreaterThanOrEqual(least);
  });

  test("counts neighbours that are alike as fewer beats", () => {
    const bell = bellNumbers(7);
    const swinging = beatMedian(beats(200, 0.8, bell))!;
    const independent = beatMedian(beats(200, 0, bell))!;
    // Theory: n (1 − r) / (1 + r) = 22 for r = 0.8.
    expect(swinging.effective).toBeGreaterThan(10);
    expect(swinging.effective).toBeLessThan(40);
    expect(independent.effective).toBeGreaterThan(120);
  });

  test("one stray beat hardly moves value or interval", () => {
    const bell = bellNumbers(3);
    const clean = beats(20, 0, bell);
    const stray = [...clean.slice(0, 10), 50, ...clean.slice(10)];
    expect(Math.abs(beatMedian(stray)!.value - beatMedian(clean)!.value)).toBeLessThan(0.4);
    expect(halfWidth(beatMedian(stray)!)).toBeLessThan(2 * halfWidth(beatMedian(clean)!));
  });

  test("an estimate keeps its ends in order when the unit turns them round", () => {
    const middle = beatMedian([0.8, 0.81, 0.82, 0.79, 0.8, 0.83])!;
    const rate = estimate(middle, (x) => 60 / x);
    expect(rate.low).toBeLessThan(rate.value);
    expect(rate.value).toBeLessThan(rate.high);
    expect(rate.count).toBe(6);
  });
});
