import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cos, largestAngle, sin } from "./circle.js";
import { exp, log, power } from "./exponential.js";
import { createRandom } from "./random.js";

/** Distance in units of the last place of the reference. */
function ulps(value: number, reference: number): number {
  const gap = Math.max(Math.abs(reference) * Number.EPSILON, Number.MIN_VALUE);
  return Math.abs(value - reference) / gap;
}

function everyDouble(min: number, max: number, check: (x: number) => void): void {
  fc.assert(fc.property(fc.double({ min, max, noNaN: true }), check), { numRuns: 5000 });
}

describe("portable functions against the engine's own", () => {
  test("e^x within 2 units in the last place", () => {
    everyDouble(-700, 709, (x) => {
      expect(ulps(exp(x), Math.exp(x))).toBeLessThanOrEqual(2);
    });
  });
  test("ln x within 2 units in the last place", () => {
    everyDouble(Number.MIN_VALUE, Number.MAX_VALUE, (x) => {
      expect(ulps(log(x), Math.log(x))).toBeLessThanOrEqual(2);
    });
    everyDouble(0.5, 2, (x) => {
      expect(Math.abs(log(x) - Math.log(x))).toBeLessThanOrEqual(2e-16);
    });
  });
  test("sine and cosine within 3e-16", () => {
    everyDouble(-1e4, 1e4, (x) => {
      expect(Math.abs(sin(x) - Math.sin(x))).toBeLessThanOrEqual(3e-16);
      expect(Math.abs(cos(x) - Math.cos(x))).toBeLessThanOrEqual(3e-16);
    });
    expect(() => sin(largestAngle * 2)).toThrow(RangeError);
    expect(() => cos(Number.NaN)).toThrow(RangeError);
  });
  test("powers to 1e-13", () => {
    everyDouble(-2, 2, (y) => {
      for (const base of [1e-3, 0.3, 1, 7, 1e3])
        expect(Math.abs(power(base, y) / base ** y - 1)).toBeLessThan(1e-13);
    });
  });
  // Exact by definition of the functions.
  test.each([
    [exp(0), 1],
    [log(1), 0],
    [sin(0), 0],
    [cos(0), 1],
    [exp(-800), 0],
    [exp(800), Number.POSITIVE_INFINITY],
    [log(0), Number.NEGATIVE_INFINITY],
    [power(0, 2), 0],
    [power(7, 0), 1],
  ])("edge value %d is %d", (value, expected) => expect(value).toBe(expected));
});

describe("random numbers", () => {
  test("the generator's words follow the published update", () => {
    // One step of xoshiro128** worked by hand from the paper's listing: out = rotl(s1 × 5, 7) × 9.
    const random = createRandom(1);
    const [a, b, c, d] = random.state();
    const x = Math.imul(b, 5);
    const word = Math.imul((x << 7) | (x >>> 25), 9) >>> 0;
    const high = Math.floor(random.uniform() * 2 ** 27);
    expect(high).toBe(word >>> 5);
    expect([a, b, c, d]).not.toEqual(random.state());
  });
  test("uniform, normal and gamma have the moments of their laws", () => {
    const random = createRandom(7);
    const count = 200_000;
    const sums = { uniform: 0, normal: 0, square: 0, fourth: 0, gamma: 0, gammaSquare: 0 };
    for (let n = 0; n < count; n++) {
      sums.uniform += random.uniform();
      const z = random.normal();
      sums.normal += z;
      sums.square += z * z;
      sums.fourth += z * z * z * z;
      const g = random.gamma(4);
      sums.gamma += g;
      sums.gammaSquare += (g - 1) * (g - 1);
    }
    // Bounds at five standard errors.
    expect(Math.abs(sums.uniform / count - 0.5)).toBeLessThan((5 * 0.2887) / Math.sqrt(count));
    expect(Math.abs(sums.normal / count)).toBeLessThan(5 / Math.sqrt(count));
    expect(Math.abs(sums.square / count - 1)).toBeLessThan((5 * Math.SQRT2) / Math.sqrt(count));
    expect(Math.abs(sums.fourth / count - 3)).toBeLessThan((5 * 9.8) / Math.sqrt(count));
    expect(Math.abs(sums.gamma / count - 1)).toBeLessThan((5 * 0.5) / Math.sqrt(count));
    expect(Math.abs(sums.gammaSquare / count - 0.25)).toBeLessThan(0.01);
  });
  test("streams of one seed differ and repeat", () => {
    const draw = (seed: number, stream: number) =>
      Array.from({ length: 8 }, createRandom(seed, stream).uniform);
    expect(draw(3, 0)).toEqual(draw(3, 0));
    expect(draw(3, 0)).not.toEqual(draw(3, 1));
    expect(draw(3, 1)).not.toEqual(draw(1, 3));
  });
  test.each([-1, 1.5, 2 ** 32, Number.NaN])("seed %d is refused", (seed) => {
    expect(() => createRandom(seed)).toThrow(RangeError);
  });
});
