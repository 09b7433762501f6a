import { describe, expect, test } from "vitest";
import { createSineFit } from "./quality-sine-fit.js";
import { createRandom, normal } from "./testing/noise.js";

const count = 32;

/**
 * Share left over by least squares, by another way: the columns are made orthogonal one after the other
 * (Gram and Schmidt, twice over for accuracy) and taken off the shape.
 */
function leftOverByProjection(values: Float64Array, angle: number): number {
  const columns = [
    (_: number) => 1,
    (i: number) => i,
    (i: number) => Math.cos(angle * i),
    (i: number) => Math.sin(angle * i),
  ].map((column) => Float64Array.from({ length: count }, (_, i) => column(i)));
  const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, x, i) => sum + x * b[i]!, 0);
  const takeOff = (from: Float64Array, unit: Float64Array) => {
    const share = dot(from, unit);
    for (let i = 0; i < count; i++) from[i]! -= share * unit[i]!;
  };
  const rest = values.slice();
  const units: Float64Array[] = [];
  let energy = Number.NaN;
  for (const column of columns) {
    for (let twice = 0; twice < 2; twice++) for (const unit of units) takeOff(column, unit);
    const length = Math.sqrt(dot(column, column));
    const unit = column.map((x) => x / length);
    units.push(unit);
    takeOff(rest, unit);
    if (units.length === 1) energy = dot(rest, rest);
  }
  return dot(rest, rest) / energy;
}

describe("what an offset, a slope and a sine leave over", () => {
  const random = createRandom(12);

  test("equals the projection onto them, for any shape and pace", () => {
    const fit = createSineFit(count);
    for (let draw = 0; draw < 200; draw++) {
      const angle = 0.15 + 2.5 * random();
      const tilt = normal(random);
      const shape = Float64Array.from({ length: count }, (_, i) => {
        return normal(random) + 3 * Math.sin(angle * i + draw) + 0.1 * tilt * i + 40;
      });
      fit.about(shape);
      expect(fit.leftOver(angle)).toBeCloseTo(leftOverByProjection(shape, angle), 9);
    }
  });

  test("is nothing for such a sum itself, all of it for what is far from it", () => {
    const fit = createSineFit(count);
    fit.about(Float64Array.from({ length: count }, (_, i) => 7 + 0.3 * i + 2 * Math.cos(0.4 * i + 1)));
    expect(fit.leftOver(0.4)).toBeLessThan(1e-12);
    fit.about(Float64Array.from({ length: count }, (_, i) => (i % 2 === 0 ? 1 : -1)));
    expect(fit.leftOver(0.4)).toBeGreaterThan(0.95);
  });

  test("is NaN for a constant", () => {
    const fit = createSineFit(count);
    fit.about(new Float64Array(count).fill(5));
    expect(fit.leftOver(0.4)).toBeNaN();
  });
});
