/** Pulses whose truth is known: the average beats of the marked recordings, strung together at any rate, in noise. */
import { detectBeats } from "./detect-beats.js";
import { addCounts, f1, matchBeats } from "./match-beats.js";
import { createGauss, createRandom } from "./seeded-random.js";

/** What an average beat is made from. */
export interface ShapedChannel {
  readonly name: string;
  readonly values: Float64Array;
  readonly rate: number;
  readonly feet: readonly number[];
}

/** One beat from foot to next foot, foot at 0, top at 1. */
export interface BeatShape {
  readonly name: string;
  readonly points: Float64Array;
  /** Mean interval of the beats it was made from, s. */
  readonly interval: number;
}

const POINTS = 101;
/** Share of the beat that is systole: it hardly changes its length with the rate, diastole does. */
const SYSTOLE = 0.5;

export function averageShape({ name, values, rate, feet }: ShapedChannel): BeatShape {
  const sum = new Float64Array(POINTS);
  let count = 0;
  let seconds = 0;
  for (let b = 0; b + 1 < feet.length; b++) {
    const length = feet[b + 1]! - feet[b]!;
    if (length < 0.3 || length > 1.6) continue;
    const beat = Float64Array.from({ length: POINTS }, (_, i) => {
      const at = (feet[b]! + (length * i) / (POINTS - 1)) * rate;
      const left = Math.floor(at);
      return values[left]! + (at - left) * ((values[left + 1] ?? Number.NaN) - values[left]!);
    });
    if (beat.some((value) => Number.isNaN(value))) continue;
    const tilt = beat[POINTS - 1]! - beat[0]!;
    for (let i = 0; i < POINTS; i++) sum[i]! += beat[i]! - beat[0]! - (tilt * i) / (POINTS - 1);
    count++;
    seconds += length;
  }
  const top = Math.max(...sum);
  return { name, points: sum.map((value) => value / top), interval: seconds / count };
}

export interface SyntheticPulse {
  readonly values: Float64Array;
  /** Tops of the pulses, s. */
  readonly peaks: readonly number[];
}

/**
 * Strings beats together. Systole shortens with the root of the interval, diastole takes the rest.
 *
 * @param decibels pulse SD over white-noise SD
 */
export function stringBeats(
  shape: BeatShape,
  intervals: readonly number[],
  rate: number,
  decibels: number,
  gauss: () => number,
): SyntheticPulse {
  const values = new Float64Array(Math.floor(intervals.reduce((sum, interval) => sum + interval, 0) * rate));
  const top = shape.points.indexOf(Math.max(...shape.points)) / (POINTS - 1);
  const peaks: number[] = [];
  let foot = 0;
  for (const interval of intervals) {
    const usual = SYSTOLE * shape.interval * Math.sqrt(interval / shape.interval);
    const systole = Math.min(usual, 1.2 * SYSTOLE * interval);
    peaks.push(foot + (top / SYSTOLE) * systole);
    for (let i = Math.ceil(foot * rate); i < Math.min(values.length, (foot + interval) * rate); i++) {
      const time = i / rate - foot;
      const phase =
        time < systole
          ? (time / systole) * SYSTOLE
          : SYSTOLE + ((time - systole) / (interval - systole)) * (1 - SYSTOLE);
      const at = Math.min(POINTS - 1.000001, phase * (POINTS - 1));
      const left = Math.floor(at);
      values[i] = shape.points[left]! + (at - left) * (shape.points[left + 1]! - shape.points[left]!);
    }
    foot += interval;
  }
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const power = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
  const noise = Math.sqrt(power) * 10 ** (-decibels / 20);
  return { values: values.map((value) => value + noise * gauss()), peaks };
}

export const syntheticRates = [30, 35, 40, 50, 60, 75, 90, 120, 150, 180, 200, 220] as const;

/**
 * Pooled F1 and the worst shape's, 40 s at 100 samples/s per shape.
 *
 * @param scatter SD of the intervals as a share of their mean: 0.03 steady, 0.22 like atrial fibrillation; each drawn on its own, none under 0.3 s or, if shorter, 0.7 of the mean
 */
export function scoreSynthetic(
  shapes: readonly BeatShape[],
  perMinute: number,
  decibels: number,
  scatter: number,
  seconds = 40,
) {
  const rate = 100;
  const rows = shapes.map((shape, number) => {
    const gauss = createGauss(createRandom(1000 * perMinute + 10 * decibels + number));
    const mean = 60 / perMinute;
    const least = Math.min(0.3, 0.7 * mean);
    const intervals: number[] = [];
    for (let time = 0; time < seconds; time += intervals.at(-1)!) {
      intervals.push(Math.max(least, mean * (1 + scatter * gauss())));
    }
    const { values, peaks } = stringBeats(shape, intervals, rate, decibels, gauss);
    const { hits, extra, missed } = matchBeats(
      detectBeats(values, rate).map((beat) => beat.peak),
      peaks,
    );
    return { name: shape.name, hits, extra, missed, f1: f1({ hits, extra, missed }) };
  });
  const worst = rows.reduce((a, b) => (b.f1 < a.f1 ? b : a));
  return {
    perMinute,
    decibels,
    scatter,
    pooled: f1(addCounts(rows)),
    worst: worst.f1,
    worstName: worst.name,
  };
}
