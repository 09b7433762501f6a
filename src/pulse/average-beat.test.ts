import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hertz } from "../model/units.js";
import { averageBeat, shapeDifference, traceAt } from "./average-beat.js";

const rate = hertz(50);
const frame = { from: -0.1, step: 0.02, points: 21 };

describe("average beat", () => {
  test("is the mean beat without its own level, with the spread over the beats", () => {
    // Sizes 1, 2 and 3 of one wave on unlike levels: mean 2, standard deviation 1 (by hand).
    const values = new Float64Array(300);
    const wave = (t: number) => Math.sin(2 * Math.PI * t);
    for (let i = 0; i < 300; i++)
      values[i] = (Math.floor(i / 100) + 1) * wave((i % 100) / 50) + 1000 * Math.floor(i / 100);
    const average = averageBeat({ values, rate }, [0.5, 2.5, 4.5], frame)!;
    expect(average.count).toBe(3);
    const own = Array.from({ length: 21 }, (_, i) => wave(0.4 + 0.02 * i));
    const level = own.reduce((sum, x) => sum + x, 0) / 21;
    for (let i = 0; i < 21; i++) {
      expect(average.mean[i]).toBeCloseTo(2 * (own[i]! - level), 9);
      expect(average.spread[i]).toBeCloseTo(Math.abs(own[i]! - level), 9);
    }
  });

  test("leaves out beats that are not whole", () => {
    const values = new Float64Array(300).fill(1);
    values[100] = Number.NaN;
    expect(averageBeat({ values, rate }, [0, 1, 2, 3.9, 5.9], frame)!.count).toBe(2);
    expect(averageBeat({ values, rate }, [2], frame)).toBeNull();
  });

  test.each([{ points: 1 }, { points: 2.5 }, { step: 0 }, { from: Number.NaN }])(
    "a frame with %o is refused",
    (bad) => {
      expect(() => averageBeat({ values: new Float64Array(9), rate }, [], { ...frame, ...bad })).toThrow(
        /^argument-out-of-range/,
      );
    },
  );

  test("between samples the trace is a cubic", () => {
    // Exact for polynomials up to the third degree (Lagrange).
    const cubic = (t: number) => 2 * t ** 3 - 3 * t ** 2 + t - 5;
    const values = Float64Array.from({ length: 100 }, (_, i) => cubic(i / 50));
    for (const t of [0.021, 0.5, 1.013, 1.93]) expect(traceAt({ values, rate }, t)).toBeCloseTo(cubic(t), 9);
    expect(traceAt({ values, rate }, -0.1)).toBeNaN();
    expect(traceAt({ values, rate }, 1.97)).toBeNaN();
  });
});

describe("difference of shapes", () => {
  const shape = fc
    .array(fc.integer({ min: -1000, max: 1000 }), { minLength: 5, maxLength: 40 })
    .filter((points) => new Set(points).size > 1);

  test("is 0 whatever size and level, 1 for the same upside down", () => {
    fc.assert(
      fc.property(
        shape,
        fc.integer({ min: 1, max: 50 }),
        fc.integer({ min: -99, max: 99 }),
        (points, gain, level) => {
          const one = Float64Array.from(points);
          expect(
            shapeDifference(
              one,
              one.map((x) => gain * x + level),
            ),
          ).toBeLessThan(1e-6);
          expect(
            shapeDifference(
              one,
              one.map((x) => -gain * x),
            ),
          ).toBe(1);
        },
      ),
    );
  });

  test("of two waves a quarter turn apart is 1, an eighth apart √½", () => {
    const wave = (turn: number) =>
      Float64Array.from({ length: 64 }, (_, i) => Math.sin(2 * Math.PI * (i / 64 + turn)));
    expect(shapeDifference(wave(0), wave(0.25))).toBeCloseTo(1, 6);
    expect(shapeDifference(wave(0), wave(0.125))).toBeCloseTo(Math.SQRT1_2, 9);
  });

  test("is refused for unequal lengths", () => {
    expect(() => shapeDifference(new Float64Array(5), new Float64Array(6))).toThrow(/^argument-out-of-range/);
  });
});
