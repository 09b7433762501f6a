import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type HeartControls, heartRows, rhythms } from "../controls/heart-controls.js";
import { restingHeart } from "../controls/values.js";
import type { HeartBeat } from "../heart-now.js";
import { createHeart } from "./index.js";

const dt = 0.002;

/** Every control somewhere in its range, with pressures that a heart can have. */
const anyControls: fc.Arbitrary<HeartControls> = fc
  .tuple(
    fc.tuple(...heartRows.map((row) => fc.double({ min: row.min, max: row.max, noNaN: true }))),
    fc.constantFrom(...rhythms),
  )
  .map(([values, rhythm]) => ({
    ...restingHeart(),
    ...Object.fromEntries(heartRows.map((row, n) => [row.name, values[n]])),
    rhythm,
  }));

function possible(controls: HeartControls): HeartControls {
  return { ...controls, diastolic: Math.min(controls.diastolic, controls.systolic - 10) };
}

describe("whatever is turned", () => {
  test("everything stays finite and within what an artery can hold, and time and beats only go forward", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 0xffffffff }),
        fc.constantFrom(0.002, 0.0016, 0.001),
        fc.array(anyControls, { minLength: 2, maxLength: 6 }),
        (seed, step, settings) => {
          const controls = possible(settings[0]!);
          const beats: HeartBeat[] = [];
          const heart = createHeart({ seed, dt: step, controls, onBeat: (beat) => beats.push(beat) });
          let last = heart.now.time;
          for (const setting of settings) {
            Object.assign(controls, setting);
            for (let n = 0; n < 6 / step; n++) {
              heart.step();
              const { now } = heart;
              // 0 is the least the veins can pull it to; 250 wanted, 1.8 strokes after a long pause.
              if (!(now.aortic >= 0 && now.aortic < 700)) throw new Error(`aortic ${now.aortic}`);
              if (!(now.centralVenous >= 0 && now.centralVenous <= 31)) throw new Error("venous");
              if (!(Math.abs(now.toneWave) < 1.2)) throw new Error(`tone ${now.toneWave}`);
              if (!(now.saturation >= 0.5 && now.saturation <= 1)) throw new Error("saturation");
              if (!(now.sinceEjection >= 0 && now.time > last)) throw new Error("time");
              last = now.time;
            }
          }
          for (let n = 1; n < beats.length; n++) {
            expect(beats[n]!.r).toBeGreaterThan(beats[n - 1]!.r);
            expect(beats[n]!.ejection).toBeGreaterThan(beats[n - 1]!.ejection);
          }
          for (const beat of beats) {
            expect(beat.ejection).toBeGreaterThan(beat.r);
            expect(beat.ejectionTime).toBeGreaterThan(0.05);
            expect(beat.strokeRatio).toBeGreaterThanOrEqual(0);
          }
        },
      ),
      { numRuns: 40 },
    );
  });

  test("the same seed and the same turns give the same bits, and another seed others", () => {
    const trace = (seed: number) => {
      const controls = { ...restingHeart(), ectopics: 0.1 };
      const heart = createHeart({ seed, dt, controls });
      return Float64Array.from({ length: 20_000 }, (_, n) => {
        if (n === 7000) controls.rhythm = "fibrillation";
        if (n > 9000) controls.systolic = 120 - (n - 9000) / 400;
        heart.step();
        return heart.now.aortic + heart.now.toneWave;
      });
    };
    expect(trace(4)).toEqual(trace(4));
    expect(trace(4)).not.toEqual(trace(5));
  });
});

describe("refuses", () => {
  test.each([
    [{ seed: -1 }, /^bad-seed/],
    [{ seed: 1.5 }, /^bad-seed/],
    [{ dt: 0 }, /^bad-rate/],
    [{ dt: 0.005 }, /^bad-rate/],
    [{ dt: Number.NaN }, /^bad-rate/],
    [{ controls: { ...restingHeart(), systolic: 80, diastolic: 71 } }, /^impossible-pressures/],
  ])("%o", (wrong, message) => {
    expect(() => createHeart({ seed: 1, dt, controls: restingHeart(), ...wrong })).toThrow(message);
  });
  test("nothing of a pump asked for one pressure", () => {
    const controls: HeartControls = { ...restingHeart(), systolic: 80, diastolic: 80, rhythm: "steady-flow" };
    expect(createHeart({ seed: 1, dt, controls }).now.aortic).toBe(80);
  });
});
