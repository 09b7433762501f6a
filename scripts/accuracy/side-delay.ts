/** Side delay against the Cramér–Rao bound: two noisy copies of one pulse train, equal shapes. Synthetic. */
import { type Hertz, hertz } from "../../src/model/units.js";
import { sideDelay } from "../../src/pulse/side-delay.js";
import { createRandom, normal } from "../../src/pulse/testing/noise.js";
import { makeBeats, makePulses } from "../../src/pulse/testing/pulse-train.js";
import { recordedShapes } from "../../src/pulse/testing/shapes.js";
import { detectBeats } from "./detect-beats.js";

const rate: Hertz = hertz(100);
const seconds = 18;
const beatsUsed = 20;

export interface DelayRow {
  /** SD of the pulse over SD of the white noise, both before any filter. */
  readonly decibels: number;
  /** Cramér–Rao bound of the delay between two channels with equal noise, ms. */
  readonly bound: number;
  /** SD over the repeats, ms. */
  readonly byShape: number;
  readonly byFoot: number;
}

function feetOf(values: Float64Array): number[] {
  return detectBeats(values, rate).flatMap(({ foot }) => (foot === null ? [] : [foot as number]));
}

function deviation(values: readonly number[]): number {
  const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
  return Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (values.length - 1));
}

/**
 * One row per noise level, `repeats` draws each, all recorded shapes in turn. The true delay is drawn anew each time,
 * between −30 and 60 ms. Feet are those the beat finder finds in the noisy traces.
 */
export function scoreSideDelay(repeats: number, levels: readonly number[] = [30, 20, 14, 10, 6]): DelayRow[] {
  return levels.map((decibels) => {
    const random = createRandom(77 + decibels);
    const shape: number[] = [];
    const foot: number[] = [];
    const bounds: number[] = [];
    for (let i = 0; i < repeats; i++) {
      const template = recordedShapes[i % recordedShapes.length]!;
      const feet = makeBeats(0.6, seconds, 75, 0.03, random).slice(0, beatsUsed);
      const delay = -0.03 + 0.09 * random();
      const clean = makePulses(seconds * rate, rate, feet, template, 1);
      const late = makePulses(
        seconds * rate,
        rate,
        feet.map((time) => time + delay),
        template,
        1,
      );
      const noise = deviation([...clean]) / 10 ** (decibels / 20);
      // Var ≥ σ² Σ… for each side; two sides with equal noise double it (Kay 1993, delay estimation).
      let slope = 0;
      for (let n = 1; n + 1 < clean.length; n++) slope += (((clean[n + 1]! - clean[n - 1]!) * rate) / 2) ** 2;
      bounds.push((Math.SQRT2 * noise) / Math.sqrt(slope));
      const side = (values: Float64Array) => {
        const noisy = values.map((x) => x + noise * normal(random));
        return { values: noisy, rate, feet: feetOf(noisy) };
      };
      const got = sideDelay(side(clean), side(late));
      if (got.byShape !== null) shape.push(got.byShape.value - delay);
      if (got.byFoot !== null) foot.push(got.byFoot.value - delay);
    }
    const bound = Math.sqrt(bounds.reduce((sum, b) => sum + b * b, 0) / bounds.length);
    return {
      decibels,
      bound: 1000 * bound,
      byShape: 1000 * deviation(shape),
      byFoot: 1000 * deviation(foot),
    };
  });
}
