import { describe, expect, test } from "vitest";
import {
  correlation,
  intervalRules,
  longestEqualRun,
  publishedQuality,
  skewness,
  successiveCorrelation,
  templateCorrelation,
} from "./quality-published.js";

describe("skewness", () => {
  // scipy.stats.skew([2, 8, 0, 4, 1, 9, 9, 0]) = 0.2650554122698573 (SciPy 1.17.1).
  test("agrees with SciPy", () => {
    expect(skewness([2, 8, 0, 4, 1, 9, 9, 0])).toBeCloseTo(0.2650554122698573, 12);
  });

  test("is 0 for a symmetric list, positive with a tail upwards, and leaves missing samples out", () => {
    expect(skewness([-2, -1, 0, 1, 2])).toBeCloseTo(0, 12);
    expect(skewness([0, 0, 0, Number.NaN, 1])).toBeCloseTo(2 / Math.sqrt(3), 12);
  });

  test("does not exist for a constant", () => {
    expect(skewness([3, 3, 3, 3])).toBeNull();
  });
});

describe("interval rules (Orphanidou 2015)", () => {
  const every = (interval: number, count = 8) => Array.from({ length: count }, (_, i) => i * interval);

  test.each([
    { beats: every(60 / 40), rate: true, why: "40 /min is the slowest" },
    { beats: every(60 / 39), rate: false, why: "39 /min is too slow" },
    { beats: every(60 / 179), rate: true, why: "179 /min is not too fast" },
    { beats: every(60 / 182), rate: false, why: "182 /min is too fast" },
  ])("$why", ({ beats, rate }) => {
    expect(intervalRules(beats).rate).toBe(rate);
  });

  test("a gap over 3 s and a ratio of 2.2 break a rule each", () => {
    expect(intervalRules([0, 1, 2, 5.01, 6]).gap).toBe(false);
    expect(intervalRules([0, 1, 2, 4.9, 6]).gap).toBe(true);
    expect(intervalRules([0, 1, 2, 4.21, 5]).ratio).toBe(false);
    expect(intervalRules([0, 1, 2, 4.15, 5.15]).ratio).toBe(true);
  });

  test("one beat says nothing", () => {
    expect(intervalRules([1])).toEqual({ rate: null, gap: null, ratio: null });
  });
});

describe("correlations", () => {
  // numpy.corrcoef([1, 2, 3, 5], [2, 1, 4, 6])[0, 1] = 0.9022436386781062 (NumPy 2.4.6).
  test("agrees with NumPy", () => {
    expect(correlation([1, 2, 3, 5], [2, 1, 4, 6])).toBeCloseTo(0.9022436386781062, 12);
  });

  test("copies of one pulse, whatever their size and level, correlate fully", () => {
    const pulse = [0, 3, 5, 4, 2, 1];
    const copies = [1, 2, 0.5].map((size) => pulse.map((value) => 7 + size * value));
    expect(templateCorrelation(copies)).toBeCloseTo(1, 12);
    expect(successiveCorrelation(copies)).toBeCloseTo(1, 12);
  });

  test("one turned-over pulse of two is as unlike the one before as can be", () => {
    expect(
      successiveCorrelation([
        [0, 1, 0, 2],
        [0, -1, 0, -2],
      ]),
    ).toBeCloseTo(-1, 12);
  });

  test("one pulse has nothing to be compared with", () => {
    expect(templateCorrelation([[1, 2, 3]])).toBeNull();
    expect(successiveCorrelation([[1, 2, 3]])).toBeNull();
  });
});

test("the longest equal run counts samples, and missing ones not at all", () => {
  expect(longestEqualRun([1, 2, 2, 2, 3, 3])).toBe(3);
  expect(longestEqualRun([Number.NaN, Number.NaN, Number.NaN, 1])).toBe(1);
  expect(longestEqualRun([])).toBe(0);
});

test("limits taken from memory say so", () => {
  expect(publishedQuality.templateCorrelation).toMatchObject({ value: 0.86, support: "from-memory" });
  expect(publishedQuality.intervalRatio).toMatchObject({ value: 2.2, support: "published" });
});
