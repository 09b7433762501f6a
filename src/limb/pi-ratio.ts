/** Size of the suspect side's pulses over the sound side's, on a log scale. */
import { type Estimate, hasLevel } from "../model/index.js";
import { logRatioScatter } from "../rules/index.js";
import { beatMedian, halfWidth } from "./beat-median.js";
import { logIndices, type Reading } from "./reading.js";

export interface PiRatio {
  /** Interval of the beats' own scatter alone: what these two fingers do now. */
  readonly measured: Estimate;
  /** The same widened by how much healthy fingers differ: what it can say about the limb. */
  readonly widened: Estimate;
}

/** 97.5 % quantile of the normal distribution. */
const z = 1.959964;

/** Whether sizes may be compared at all (S3): known gain and the same light on both sides. */
export function sizesComparable(sound: Reading, suspect: Reading): boolean {
  return hasLevel(sound.channel) && hasLevel(suspect.channel) && sameColour(sound, suspect);
}

export function sameColour(sound: Reading, suspect: Reading): boolean {
  return sound.channel.colour === suspect.channel.colour;
}

/**
 * Ratio of the median PIs, suspect over sound. The two sides' beat scatter is added as if
 * independent, which is the wide side when both swing with the same breath.
 *
 * @returns `null` unless both are solid with known gain, the same light colour and 5 beats (S2, S3)
 */
export function piRatio(sound: Reading, suspect: Reading): PiRatio | null {
  if (sound.capture !== "solid" || suspect.capture !== "solid") return null;
  if (!sizesComparable(sound, suspect)) return null;
  const one = beatMedian(logIndices(sound.beats));
  const other = beatMedian(logIndices(suspect.beats));
  if (one === null || other === null) return null;
  const log = other.value - one.value;
  const beats = Math.hypot(halfWidth(one), halfWidth(other));
  const both = Math.hypot(beats, z * logRatioScatter);
  const count = Math.min(one.count, other.count);
  const around = (half: number): Estimate => ({
    value: Math.exp(log),
    low: Math.exp(log - half),
    high: Math.exp(log + half),
    count,
  });
  return { measured: around(beats), widened: around(both) };
}
