/** The usual beat of a stretch of samples, as a reading carries it. */
import type { Hertz, Seconds } from "../model/index.js";
import { averageBeat } from "../pulse/average-beat.js";
import { median } from "./beat-median.js";
import type { BeatShape } from "./reading.js";

/** From before the foot to shortly before the next one: what lies beyond belongs to the next beat, seconds and share. */
const lead = 0.1;
const ofInterval = 0.85;
const step = 0.004 as Seconds;

/**
 * @param values systole up, NaN where missing
 * @param start time of the first value
 * @param feet of the beats, in order
 * @returns `null` with fewer than 5 feet, or when no beat is whole
 */
export function usualBeat(
  values: Float64Array,
  rate: Hertz,
  start: Seconds,
  feet: readonly number[],
): BeatShape | null {
  if (feet.length < 5) return null;
  const interval = median(feet.slice(1).map((foot, i) => foot - feet[i]!));
  const points = Math.floor((lead + ofInterval * interval) / step);
  if (points < 2) return null;
  const average = averageBeat({ values, rate, start }, feet, { from: -lead, step, points });
  return average === null ? null : { from: -lead as Seconds, step, values: [...average.mean] };
}
