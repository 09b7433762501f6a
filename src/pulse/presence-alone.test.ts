import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { testAlone } from "./presence-alone.js";
import { chanceOfScore } from "./presence-comb-table.js";
import { readMarked } from "./testing/marked-files.js";
import { createRandom, makeNoise, type NoiseKind } from "./testing/noise.js";
import { makeBeats, makePulses } from "./testing/pulse-train.js";
import { recordedShapes } from "./testing/shapes.js";

const rate = 50;

describe("on noise without a pulse", () => {
  // Bars of the design: movement at most 5 %, breathing at most 2 % called a pulse; the rest no more than the test's 1 %.
  test.each<[NoiseKind, number, number]>([
    ["white", 5, 0.01],
    ["pink", 5, 0.01],
    ["white", 10, 0.01],
    ["pink", 10, 0.01],
    ["breathing", 10, 0.02],
    ["movement", 10, 0.05],
    ["movement", 5, 0.05],
  ])("%s noise of %d s is claimed in at most a share of %d", (kind, seconds, most) => {
    const random = createRandom(31);
    let claims = 0;
    for (let i = 0; i < 300; i++) {
      if (testAlone({ values: makeNoise(kind, seconds * rate, rate, random), rate }).rate !== null) claims++;
    }
    expect(claims / 300).toBeLessThanOrEqual(most);
  });

  test("the chance of the rhythm is calibrated: 1 % of pink windows, 99.9 % interval of 800 draws", () => {
    const random = createRandom(32);
    let hits = 0;
    for (let i = 0; i < 800; i++) {
      if (testAlone({ values: makeNoise("pink", 500, rate, random), rate }).presence.p < 0.01) hits++;
    }
    expect(hits).toBeLessThanOrEqual(18);
    expect(hits).toBeGreaterThanOrEqual(1);
  });
});

describe("power against the ideal filter, white noise, 75/min", () => {
  test("10 s, 3 % interval scatter: loses at most 7 dB at 90 % power in a 1 % test", () => {
    const random = createRandom(33);
    const trials = 200;
    let hits = 0;
    for (let i = 0; i < trials; i++) {
      const feet = makeBeats(0, 10, 75, 0.03, random);
      const unit = makePulses(500, rate, feet, recordedShapes[i % 8]!, 1);
      const energy = (2.326348 + 1.281552) ** 2 * 10 ** 0.7;
      const size = Math.sqrt(energy / unit.reduce((sum, x) => sum + x * x, 0));
      const values = makeNoise("white", 500, rate, random).map((x, n) => x + size * unit[n]!);
      if (testAlone({ values, rate }).presence.p < 0.01) hits++;
    }
    expect(hits).toBeGreaterThanOrEqual(0.9 * trials);
  });
});

describe("a clear pulse", () => {
  test("of a real finger is found with its rate (94.6/min by two detectors, data/README.md)", () => {
    const recording = readMarked("noisy_20s");
    const got = testAlone({ values: recording.values.subarray(0, 10000), rate: 1000 });
    expect(got.presence.answer).toBe("found");
    expect(Math.abs(got.rate! - 94.3)).toBeLessThan(2.5);
  });

  test.each([45, 60, 90, 130, 180, 215])("at %d/min is found with its rate, ±3 %%", (perMinute) => {
    const feet = makeBeats(0, 10, perMinute, 0.01, createRandom(perMinute));
    const values = makePulses(500, rate, feet, recordedShapes[0]!, 10);
    const noise = makeNoise("white", 500, rate, createRandom(1));
    const got = testAlone({ values: values.map((x, n) => x + noise[n]!), rate });
    expect(got.presence.answer).toBe("found");
    expect(Math.abs(got.rate! / perMinute - 1)).toBeLessThan(0.03);
  });
});

describe("never says there is none", () => {
  const pulse = makePulses(500, rate, makeBeats(0, 10, 75, 0.02, createRandom(9)), recordedShapes[0]!, 1);
  test.each<[string, ArrayLike<number>]>([
    ["no samples", []],
    ["one sample", [1]],
    ["too short", pulse.subarray(0, 200)],
    ["all missing", new Float64Array(500).fill(Number.NaN)],
    ["a constant", new Float64Array(500).fill(7)],
    ["a huge constant", new Float64Array(500).fill(1e300)],
    ["a straight line", Float64Array.from({ length: 500 }, (_, n) => n)],
    ["a smooth sine", Float64Array.from({ length: 500 }, (_, n) => Math.sin(n / 7))],
    ["no stretch of 4.5 s without a hole", pulse.map((x, n) => (n % 200 === 0 ? Number.NaN : x))],
  ])("%s", (_, values) => {
    const got = testAlone({ values, rate });
    expect(got.presence.answer).toBe("cannot-tell");
    expect(got.rate).toBeNull();
  });

  test("whatever comes, p stays within 0 and 1 and not-found is never said", () => {
    const sample = fc.oneof(fc.double(), fc.double({ min: -10, max: 10 }));
    fc.assert(
      fc.property(fc.array(sample, { minLength: 240, maxLength: 400 }), (values) => {
        const got = testAlone({ values, rate: 40 }).presence;
        expect(got.p).toBeGreaterThanOrEqual(0);
        expect(got.p).toBeLessThanOrEqual(1);
        expect(got.answer).not.toBe("not-found");
      }),
      { seed: 6, numRuns: 100 },
    );
  });

  test("the same window gives the same answer to the last bit, whatever was asked between", () => {
    const first = testAlone({ values: pulse, rate });
    for (let length = 300; length < 420; length += 5) testAlone({ values: pulse.subarray(0, length), rate });
    expect(testAlone({ values: pulse, rate })).toEqual(first);
  });

  test("refuses a rate it cannot search", () => {
    expect(() => testAlone({ values: pulse, rate: 10 })).toThrow(/rate/);
  });
});

test("the chance falls as the score rises, at any length", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 12, noNaN: true }),
      fc.double({ min: 4, max: 25, noNaN: true }),
      (score, seconds) => {
        const chance = chanceOfScore(score, seconds);
        expect(chance).toBeGreaterThan(0);
        expect(chance).toBeLessThanOrEqual(1);
        expect(chanceOfScore(score + 0.1, seconds)).toBeLessThanOrEqual(chance);
      },
    ),
  );
});
