import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { lowPassHalfKernel } from "./low-pass-kernel.js";

interface Case {
  readonly rate: number;
  readonly cutoff: number;
  readonly half: number;
  readonly beta: number;
  readonly taps: readonly number[];
}

const golden: readonly Case[] = JSON.parse(
  readFileSync(new URL("./golden/low-pass-kernel/expected.json", import.meta.url), "utf8"),
);

describe("low-pass kernel", () => {
  test.each(golden)("equals SciPy's firwin at $rate/s, $cutoff Hz, half $half, beta $beta", (c) => {
    const taps = lowPassHalfKernel(c.cutoff / c.rate, c.half, c.beta, 0);
    expect(taps).toHaveLength(c.taps.length);
    for (let i = 0; i < taps.length; i++) expect(taps[i]).toBeCloseTo(c.taps[i]!, 13);
  });

  test("between two samples it passes a constant unchanged", () => {
    // Follows from the definition of a weighted mean.
    const taps = lowPassHalfKernel(0.25, 4, 3.4, 0.5);
    expect(taps).toHaveLength(4);
    expect(2 * taps.reduce((sum, tap) => sum + tap, 0)).toBeCloseTo(1, 14);
  });

  test.each([
    [0, 4, 3],
    [Number.NaN, 4, 3],
    [0.1, 0.5, 3],
    [0.1, 4, -1],
  ])("is refused for cutoff %d, half %d, beta %d", (cutoff, half, beta) => {
    expect(() => lowPassHalfKernel(cutoff, half, beta, 0)).toThrow(/^argument-out-of-range/);
  });
});
