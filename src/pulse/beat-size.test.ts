import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createUsualSize } from "./beat-size.js";

interface Wave {
  readonly time: number;
  readonly size: number;
}

/** The definition in words, with none of the code's bookkeeping: the greatest wave within `apart`, of equals the first. */
function towering(waves: readonly Wave[], apart: number, memory: number): number[] {
  const kept = waves.slice(-64);
  const newest = kept.at(-1)!.time;
  return kept
    .filter((wave, i) =>
      kept.every((other, k) => {
        if (Math.abs(other.time - wave.time) >= apart) return true;
        return k < i ? other.size < wave.size : other.size <= wave.size;
      }),
    )
    .filter((wave) => newest - wave.time <= memory)
    .map((wave) => wave.size)
    .sort((a, b) => a - b);
}

/** Weighted median, each size by itself but by no more than twice the plain median. */
function expected(sizes: readonly number[]): number {
  if (sizes.length === 0) return 0;
  const half = sizes.length / 2;
  const median = (sizes[Math.ceil(half) - 1]! + sizes[Math.floor(half)]!) / 2;
  const weights = sizes.map((size) => Math.min(size, 2 * median));
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  let sum = 0;
  for (const [i, size] of sizes.entries()) {
    sum += weights[i]!;
    if (sum >= 0.5 * whole) return size;
  }
  return sizes.at(-1)!;
}

const steps = fc.array(
  fc.record({ step: fc.integer({ min: 0, max: 30 }), size: fc.integer({ min: 1, max: 12 }) }),
  { minLength: 1, maxLength: 200 },
);

describe("usual size of a pulse", () => {
  test("the second waves between the beats have no say", () => {
    const usual = createUsualSize();
    for (let beat = 0; beat < 6; beat++) {
      usual.add(60 * beat, 10 + beat);
      usual.add(60 * beat + 20, 3);
    }
    // Five of the sizes 10 to 15 lie within the memory: 11 + 12 is less than half of 65, 11 + 12 + 13 is more.
    expect(usual.size(30, 260)).toBe(13);
  });

  test("is 0 before the first wave and after a reset", () => {
    const usual = createUsualSize();
    expect(usual.size(30, 300)).toBe(0);
    usual.add(5, 2);
    usual.reset();
    expect(usual.size(30, 300)).toBe(0);
  });

  test("follows its definition for any waves, distance and memory, wave by wave", () => {
    fc.assert(
      fc.property(
        steps,
        fc.integer({ min: 1, max: 90 }),
        fc.integer({ min: 0, max: 1500 }),
        (list, apart, memory) => {
          const usual = createUsualSize();
          const waves: Wave[] = [];
          let time = 0;
          for (const { step, size } of list) {
            time += step;
            waves.push({ time, size });
            usual.add(time, size);
            expect(usual.size(apart, memory)).toBe(expected(towering(waves, apart, memory)));
          }
        },
      ),
    );
  });
});
