import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { normalTail, studentQuantile, studentTail } from "./distributions.js";

// Made by SciPy, see golden/distributions/made-by.md.
const golden = JSON.parse(
  readFileSync(new URL("./golden/distributions/expected.json", import.meta.url), "utf8"),
) as {
  studentTail: [number, number, number][];
  studentQuantile: [number, number, number][];
  normalTail: [number, number][];
};

describe("tail areas agree with SciPy", () => {
  test("the golden file holds what it says", () => {
    expect([golden.studentTail.length, golden.studentQuantile.length, golden.normalTail.length]).toEqual([
      90, 56, 16,
    ]);
  });

  test.each(golden.studentTail)("Student tail at %d with %d degrees of freedom", (t, freedom, expected) => {
    expect(Math.abs(studentTail(t, freedom) / expected - 1)).toBeLessThan(1e-8);
  });

  test.each(golden.studentQuantile)(
    "Student quantile of tail %d with %d degrees of freedom",
    (tail, freedom, expected) => {
      expect(Math.abs(studentQuantile(tail, freedom) - expected)).toBeLessThan(
        1e-8 * Math.max(1, Math.abs(expected)),
      );
    },
  );

  test.each(golden.normalTail)("normal tail at %d", (z, expected) => {
    expect(Math.abs(normalTail(z) / expected - 1)).toBeLessThan(1e-9);
  });
});

describe("what holds for any tail", () => {
  const freedom = fc.double({ min: 0.5, max: 1000, noNaN: true });
  const t = fc.double({ min: -50, max: 50, noNaN: true });

  test("both sides of the distribution add to one", () => {
    fc.assert(
      fc.property(t, freedom, (at, v) => {
        expect(studentTail(at, v) + studentTail(-at, v)).toBeCloseTo(1, 12);
      }),
    );
  });

  test("the quantile undoes the tail", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 0.999, noNaN: true }), freedom, (tail, v) => {
        expect(Math.abs(studentTail(studentQuantile(tail, v), v) / tail - 1)).toBeLessThan(1e-7);
      }),
    );
  });

  test("endless degrees of freedom give the normal tail, endless t gives 0 or 1", () => {
    expect(studentTail(1.5, Number.POSITIVE_INFINITY)).toBe(normalTail(1.5));
    expect([studentTail(Number.POSITIVE_INFINITY, 3), studentTail(Number.NEGATIVE_INFINITY, 3)]).toEqual([
      0, 1,
    ]);
  });

  test.each([
    [() => studentTail(1, 0)],
    [() => studentTail(Number.NaN, 3)],
    [() => normalTail(Number.NaN)],
    [() => studentQuantile(0, 3)],
    [() => studentQuantile(1, 3)],
  ])("refuses what is no distribution (%#)", (call) => {
    expect(call).toThrow(/^argument-out-of-range/);
  });
});
