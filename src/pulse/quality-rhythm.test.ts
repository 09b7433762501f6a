import { describe, expect, test } from "vitest";
import { hertz } from "../model/units.js";
import { createRhythmMeter } from "./quality-rhythm.js";
import { createRandom, normal } from "./testing/noise.js";
import { createTraceMemory } from "./trace-memory.js";

const rate = 50;

function measured(at: (time: number) => number, to = 5) {
  const trace = createTraceMemory(hertz(rate));
  const values = Float64Array.from({ length: to * rate }, (_, n) => at(n / rate));
  trace.take({ first: 0, count: values.length, values, levels: values });
  return createRhythmMeter(trace)(0, to);
}

const swing = (f: number) => (time: number) => Math.sin(2 * Math.PI * f * time + 1);

describe("how a stretch moves", () => {
  test.each([0.5, 0.75, 1.25, 2.5, 3.5])("one wave of %d Hz on a bent base is explained by one pace", (f) => {
    const { share, slowShare, smooth } = measured((t) => swing(f)(t) + 0.3 * t - 0.1 * t * t);
    expect(share).toBeGreaterThan(0.97);
    expect(share).toBeGreaterThan(slowShare);
    expect(smooth).toBeGreaterThan(0.97);
  });

  test.each([0.2, 0.3, 0.35])("a breath of %d Hz is explained by a breath's pace, not by a pulse's", (f) => {
    const { share, slowShare } = measured(swing(f));
    expect(slowShare).toBeGreaterThan(share);
  });

  test("a vibration of 7 Hz lies in a narrow band, and next to nothing of it below 4 Hz", () => {
    const { narrow, smooth } = measured(swing(7));
    expect(narrow).toBeGreaterThan(0.95);
    expect(smooth).toBeLessThan(0.05);
  });

  // Degrees of freedom: of the 120 cosines that five bends leave of 125, 36 end at 4 Hz; a pace and two overtones take 6.
  test("of white noise 36 of 120 parts lie below 4 Hz, and no pace explains a third", () => {
    const random = createRandom(4);
    let smooth = 0;
    for (let n = 0; n < 200; n++) {
      const rhythm = measured(() => normal(random));
      smooth += rhythm.smooth / 200;
      expect(rhythm.share).toBeLessThan(0.35);
    }
    expect(smooth).toBeCloseTo(36 / 120, 1);
  });

  test("missing samples and constants say nothing", () => {
    expect(measured((t) => (t > 2 && t < 2.5 ? Number.NaN : swing(1)(t))).share).toBeNaN();
    expect(measured(() => 7)).toEqual({
      share: Number.NaN,
      slowShare: Number.NaN,
      smooth: Number.NaN,
      narrow: Number.NaN,
    });
    expect(measured(swing(1), 1).share).toBeNaN();
  });
});
