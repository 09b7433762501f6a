/**
 * How much later the pulse comes at one site than at another on the same clock, in two ways that are kept
 * apart: by laying the averaged beats over each other (precise, if both have the same shape) and by
 * comparing feet (less precise, not misled by a rounded wave).
 */

import { studentQuantile } from "../dsp/distributions.js";
import type { Estimate } from "../model/estimate.js";
import type { Seconds } from "../model/units.js";
import { averageBeat, type PulseTrace, shapeDifference } from "./average-beat.js";

/** Largest delay looked for, s; finger against toe is about 0.1. */
const WIDEST = 0.2;
/** What of a beat is compared: from before the foot to the end of the fall, as far as the next beat allows, s. */
const LEAD = 0.1;
const LONGEST = 0.6;
/** Share of the usual interval that may be used before the next foot is too near. */
const OF_INTERVAL = 0.8;
const STEP = 0.004;
/** Fewer beats give no interval worth the name. */
const FEWEST = 4;

export interface SideDelay {
  /** Least-squares shift of the averaged beats, other minus one, with a jackknife interval; `null` if nothing fits. */
  readonly byShape: Estimate<Seconds> | null;
  /** Median of foot minus foot, other minus one, with a distribution-free interval; `null` without enough pairs. */
  readonly byFoot: Estimate<Seconds> | null;
  /** How unlike the averaged beats are at that shift, 0 the same to 1 unrelated (`shapeDifference`). */
  readonly shapeDifference: number | null;
}

export interface DelayedSide extends PulseTrace {
  /** Feet of the beats, s on the common clock, in order. */
  readonly feet: readonly number[];
}

/**
 * Best shift of `wide` against `one`: the one with the highest correlation, which is least squares with size and offset free.
 *
 * @param wide holds `margin` more points than `one` on both sides
 * @returns shift in points; `null` when the best one is at the edge or no shift correlates
 */
function bestShift(one: Float64Array, wide: Float64Array, margin: number): number | null {
  const n = one.length;
  const scores = new Float64Array(2 * margin + 1);
  let best = 0;
  for (let s = 0; s <= 2 * margin; s++) {
    let sum = 0;
    let square = 0;
    let dot = 0;
    for (let i = 0; i < n; i++) {
      const y = wide[s + i]!;
      sum += y;
      square += y * y;
      dot += one[i]! * y; // `one` has mean 0
    }
    const variance = square - (sum * sum) / n;
    scores[s] = variance > 0 ? dot / Math.sqrt(variance) : Number.NEGATIVE_INFINITY;
    if (scores[s]! > scores[best]!) best = s;
  }
  if (best === 0 || best === 2 * margin || !(scores[best]! > 0)) return null;
  const before = scores[best - 1]!;
  const after = scores[best + 1]!;
  const bend = before - 2 * scores[best]! + after;
  return best - margin + (bend < 0 ? (0.5 * (before - after)) / bend : 0);
}

/** Mean of all beats but one, from the mean of all. */
function without(
  mean: Float64Array,
  beats: Float64Array,
  k: number,
  count: number,
  out: Float64Array,
): Float64Array {
  const n = mean.length;
  for (let i = 0; i < n; i++) out[i] = (count * mean[i]! - beats[k * n + i]!) / (count - 1);
  return out;
}

function shapeDelay(one: DelayedSide, other: DelayedSide): Pick<SideDelay, "byShape" | "shapeDifference"> {
  const none = { byShape: null, shapeDifference: null };
  const gaps = one.feet.slice(1).map((foot, i) => foot - one.feet[i]!);
  if (gaps.length < FEWEST - 1) return none;
  const interval = gaps.sort((a, b) => a - b)[gaps.length >> 1]!;
  const points = Math.round((LEAD + Math.min(LONGEST, OF_INTERVAL * interval)) / STEP);
  const margin = Math.round(WIDEST / STEP);
  const narrow = { from: -LEAD, step: STEP, points };
  const wide = { from: -LEAD - margin * STEP, step: STEP, points: points + 2 * margin };
  // Both sides from the same heart beats: only those whole on both.
  const whole = one.feet.filter(
    (foot) => averageBeat(one, [foot], narrow) !== null && averageBeat(other, [foot], wide) !== null,
  );
  const first = averageBeat(one, whole, narrow);
  const second = averageBeat(other, whole, wide);
  if (first === null || second === null || first.count < FEWEST) return none;
  const shift = bestShift(first.mean, second.mean, margin);
  if (shift === null) return none;
  const { count } = first;
  const rest = new Float64Array(first.mean.length);
  const restWide = new Float64Array(second.mean.length);
  const shifts: number[] = [];
  for (let k = 0; k < count; k++) {
    without(first.mean, first.beats, k, count, rest);
    without(second.mean, second.beats, k, count, restWide);
    const left = bestShift(rest, restWide, margin);
    if (left === null) return none;
    shifts.push(left);
  }
  // Jackknife: each value is the shift with one beat left out (Efron and Stein 1981).
  const middle = shifts.reduce((sum, s) => sum + s, 0) / count;
  const square = shifts.reduce((sum, s) => sum + (s - middle) ** 2, 0);
  const half = STEP * Math.sqrt((square * (count - 1)) / count) * studentQuantile(0.025, count - 1);
  const value = STEP * shift;
  const moved = averageBeat(
    other,
    whole.map((foot) => foot + value),
    narrow,
  );
  return {
    byShape: {
      value: value as Seconds,
      low: (value - half) as Seconds,
      high: (value + half) as Seconds,
      count,
    },
    shapeDifference: moved === null ? null : shapeDifference(first.mean, moved.mean),
  };
}

function footDelay(one: readonly number[], other: readonly number[]): Estimate<Seconds> | null {
  const differences: number[] = [];
  let j = 0;
  for (const foot of one) {
    while (j + 1 < other.length && Math.abs(other[j + 1]! - foot) <= Math.abs(other[j]! - foot)) j++;
    const difference = (other[j] ?? Number.NaN) - foot;
    if (Math.abs(difference) <= WIDEST) differences.push(difference);
  }
  const n = differences.length;
  if (n < FEWEST) return null;
  differences.sort((a, b) => a - b);
  const value = (differences[(n - 1) >> 1]! + differences[n >> 1]!) / 2;
  // Ranks that hold the median with 95 %, binomial by its normal limit; with few beats the whole range.
  const rank = Math.max(0, Math.floor(n / 2 - 0.98 * Math.sqrt(n)));
  return {
    value: value as Seconds,
    low: differences[rank]! as Seconds,
    high: differences[n - 1 - rank]! as Seconds,
    count: n,
  };
}

/**
 * Delay of `other` behind `one` from beats seen on both at once; positive when `other` is later.
 *
 * The shift by shape reaches the Cramér-Rao bound for two channels with equal noise if both have the same shape;
 * where the shapes differ it moves with the shape: compare it with the feet. Delays up to 0.2 s.
 */
export function sideDelay(one: DelayedSide, other: DelayedSide): SideDelay {
  return { ...shapeDelay(one, other), byFoot: footDelay(one.feet, other.feet) };
}
