/** The ensemble average of a channel's beats, laid over each other at given moments. */
import { DspError } from "../dsp/errors.js";
import type { Hertz, Seconds } from "../model/units.js";

/** A stretch of one channel, systole up, evenly sampled; NaN = missing. */
export interface PulseTrace {
  readonly values: Float64Array;
  readonly rate: Hertz;
  /** Time of the first value; 0 if left out. */
  readonly start?: Seconds;
}

/** Where a beat is sampled, relative to the moment it is aligned at. */
export interface BeatFrame {
  /** First point, s; negative for before. */
  readonly from: number;
  /** Distance of points, s; above 0. */
  readonly step: number;
  /** At least 2. */
  readonly points: number;
}

export interface AverageBeat extends BeatFrame {
  /** Mean over the beats at each point, each beat with its own mean taken off; channel units. */
  readonly mean: Float64Array;
  /** Standard deviation over the beats at each point, channel units; 0 with a single beat. */
  readonly spread: Float64Array;
  /** The beats themselves, one after the other, `points` values each, mean taken off. */
  readonly beats: Float64Array;
  readonly count: number;
}

/** Value between samples by the cubic through the four nearest; NaN outside the trace or beside a missing sample. */
export function traceAt({ values, rate, start = 0 as Seconds }: PulseTrace, time: number): number {
  const at = (time - start) * rate;
  const i = Math.floor(at);
  if (i < 1 || i + 2 >= values.length) return Number.NaN;
  const t = at - i;
  const p0 = values[i - 1]!;
  const p1 = values[i]!;
  const p2 = values[i + 1]!;
  const p3 = values[i + 2]!;
  // Lagrange's cubic: exact for every polynomial up to the third degree.
  return (
    (-t * (t - 1) * (t - 2) * p0) / 6 +
    ((t + 1) * (t - 1) * (t - 2) * p1) / 2 -
    ((t + 1) * t * (t - 2) * p2) / 2 +
    ((t + 1) * t * (t - 1) * p3) / 6
  );
}

/**
 * Averages the beats of a trace that are whole within the frame; a beat touching a missing sample is left out.
 *
 * @param at moments to align at, s: the channel's own feet, or the other side's on the same clock
 * @returns `null` when no beat is whole
 * @throws {DspError} `argument-out-of-range` for a frame without extent
 */
export function averageBeat(trace: PulseTrace, at: readonly number[], frame: BeatFrame): AverageBeat | null {
  const { from, step, points } = frame;
  if (!(points >= 2 && Number.isInteger(points) && step > 0 && Number.isFinite(from))) {
    throw new DspError("argument-out-of-range", `${points} points of ${step} s from ${from} s`);
  }
  const beats = new Float64Array(at.length * points);
  let count = 0;
  for (const moment of at) {
    const base = count * points;
    let sum = 0;
    for (let i = 0; i < points; i++) {
      const value = traceAt(trace, moment + from + i * step);
      beats[base + i] = value;
      sum += value;
    }
    if (!Number.isFinite(sum)) continue;
    for (let i = 0; i < points; i++) beats[base + i]! -= sum / points;
    count++;
  }
  if (count === 0) return null;
  const mean = new Float64Array(points);
  const spread = new Float64Array(points);
  for (let i = 0; i < points; i++) {
    for (let k = 0; k < count; k++) mean[i]! += beats[k * points + i]! / count;
    for (let k = 0; k < count; k++) spread[i]! += (beats[k * points + i]! - mean[i]!) ** 2;
    spread[i] = count > 1 ? Math.sqrt(spread[i]! / (count - 1)) : 0;
  }
  return { from, step, points, mean, spread, beats: beats.slice(0, count * points), count };
}

/**
 * How unlike two beat shapes are, whatever their sizes: √(1 − r²), the share of one's swing that the other leaves
 * unexplained. 0: the same shape; 1: unrelated or upside down.
 *
 * @param one and `other` of equal length, at least 2
 * @throws {DspError} `argument-out-of-range` for unequal or too short shapes
 */
export function shapeDifference(one: Float64Array, other: Float64Array): number {
  const n = one.length;
  if (n < 2 || other.length !== n)
    throw new DspError("argument-out-of-range", `${n} and ${other.length} points`);
  let meanOne = 0;
  let meanOther = 0;
  for (let i = 0; i < n; i++) {
    meanOne += one[i]! / n;
    meanOther += other[i]! / n;
  }
  let dot = 0;
  let oneSquare = 0;
  let otherSquare = 0;
  for (let i = 0; i < n; i++) {
    const a = one[i]! - meanOne;
    const b = other[i]! - meanOther;
    dot += a * b;
    oneSquare += a * a;
    otherSquare += b * b;
  }
  if (!(dot > 0)) return 1;
  return Math.sqrt(Math.max(0, 1 - (dot * dot) / (oneSquare * otherSquare)));
}
