import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { createFourier, spectrumLines } from "./spectrum.js";

// Made by NumPy, see golden/spectrum/made-by.md.
const golden = JSON.parse(
  readFileSync(new URL("./golden/spectrum/expected.json", import.meta.url), "utf8"),
) as {
  [key in "x" | "re" | "im" | "y" | "lineRe" | "lineIm"]: number[];
};

describe("transforms agree with NumPy", () => {
  test("64 points, in place", () => {
    const re = Float64Array.from(golden.x);
    const im = new Float64Array(64);
    createFourier(64).transform(re, im);
    re.forEach((value, k) => {
      expect(value).toBeCloseTo(golden.re[k]!, 10);
    });
    im.forEach((value, k) => {
      expect(value).toBeCloseTo(golden.im[k]!, 10);
    });
  });

  test("single lines of 45 points", () => {
    const lines = spectrumLines(golden.y, 2, 8);
    expect(lines).toHaveLength(7);
    lines.forEach((line, i) => {
      expect(line.re).toBeCloseTo(golden.lineRe[i]!, 12);
      expect(line.im).toBeCloseTo(golden.lineIm[i]!, 12);
    });
  });
});

describe("refuses", () => {
  test.each([0, 1, 3, 48, 2 ** 21, Number.NaN])("a transform of %d points", (size) => {
    expect(() => createFourier(size)).toThrow(/^size-out-of-range/);
  });

  test("arrays of another length", () => {
    expect(() => createFourier(4).transform(new Float64Array(4), new Float64Array(8))).toThrow(
      /^size-out-of-range/,
    );
  });

  test.each([
    [[1, 2, 3], -1, 2],
    [[1, 2, 3], 2, 1],
    [[1, 2, 3], 0.5, 1],
    [[], 0, 0],
  ])("lines of %j from %d to %d", (values, from, to) => {
    expect(() => spectrumLines(values, from, to)).toThrow(/^argument-out-of-range/);
  });
});
