import { describe, expect, test } from "vitest";
import { createSineFit, movingAngle } from "./quality-sine.js";

const list = (count: number, at: (i: number) => number) =>
  Float64Array.from({ length: count }, (_, i) => at(i));
const angle = (2 * Math.PI) / 50;

describe("what no single sine explains", () => {
  const left = createSineFit();

  test("is nothing of a sine on an offset and a slope, whatever its phase", () => {
    for (const phase of [0, 1, 2.5])
      expect(
        left(
          list(64, (i) => 3 + 0.02 * i + Math.sin(angle * i + phase)),
          64,
          angle,
        ),
      ).toBeCloseTo(0, 9);
  });

  // Fourier series of a square wave: its first harmonic holds 8/π² of its energy.
  test("is 1 − 8/π² of a long square wave", () => {
    expect(
      left(
        list(5000, (i) => (i % 50 < 25 ? 1 : -1)),
        5000,
        angle,
      ),
    ).toBeCloseTo(1 - 8 / Math.PI ** 2, 2);
  });

  test("does not exist for a constant", () => {
    expect(left(new Float64Array(32), 32, angle)).toBeNaN();
  });
});

test("the angle at which values move is a sine's own over whole cycles, and π at most", () => {
  expect(
    movingAngle(
      list(5001, (i) => Math.sin(angle * i)),
      5001,
    ),
  ).toBeCloseTo(angle, 3);
  expect(
    movingAngle(
      list(100, (i) => (-1) ** i),
      100,
    ),
  ).toBeCloseTo(Math.PI, 0);
});
