/** A trace made small enough to be kept with its reading and drawn later. */
import type { Hertz } from "../model/index.js";
import type { ThinnedTrace } from "./measured-bodies.js";

/**
 * Means of equal runs of samples, on a scale of 1001 levels from the lowest to the highest. A run with a missing
 * sample (NaN) is missing. For a picture: peaks are lowered by the averaging, so nothing is measured on it.
 *
 * @param most  points at most, from 1 to 1200; 600 for 20 s leaves 30 a second
 * @returns `null` without a single whole run
 */
export function thinTrace(samples: ArrayLike<number>, rate: Hertz, most = 600): ThinnedTrace | null {
  const run = Math.max(1, Math.ceil(samples.length / most));
  const means: (number | null)[] = [];
  for (let start = 0; start + run <= samples.length; start += run) {
    let sum = 0;
    for (let i = start; i < start + run; i++) sum += samples[i]!;
    means.push(Number.isFinite(sum) ? sum / run : null);
  }
  const known = means.filter((mean) => mean !== null);
  if (known.length === 0) return null;
  const low = known.reduce((a, b) => Math.min(a, b));
  const high = known.reduce((a, b) => Math.max(a, b));
  const level = (mean: number) => (high > low ? Math.round((1000 * (mean - low)) / (high - low)) : 0);
  return { step: run / rate, low, high, points: means.map((mean) => (mean === null ? null : level(mean))) };
}
