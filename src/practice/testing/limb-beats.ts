/** Reads single beats off a run of the limb, by the R waves that caused them. */
import type { LimbRun } from "./limb-run.js";

export interface LimbBeat {
  /** s */
  readonly r: number;
  /** Percent, after the straight line between the beat's ends is taken off. */
  readonly perfusionIndex: number;
  /** Seconds after R: crossing of the steepest tangent with the level of the foot, and the peak. */
  readonly foot: number;
  readonly peak: number;
  /** Highest and lowest pressure above the segment, highest at the digit's root, mmHg. */
  readonly systolic: number;
  readonly diastolic: number;
  readonly distal: number;
  /** Means over the beat. */
  readonly light: number;
  readonly flow: number;
  readonly muscle: number;
  readonly saturation: number;
  readonly cuff: number;
  readonly venous: number;
  /** Mean pressure above the segment less that at the digit's root, mmHg. */
  readonly gradient: number;
}

/** @param from seconds after R at which the beat's window starts and ends (before its foot) */
export function limbBeats(run: LimbRun, from = 0.12): LimbBeat[] {
  const out: LimbBeat[] = [];
  for (let n = 0; n + 1 < run.beats.length; n++) {
    const r = (run.beats[n] as { r: number }).r;
    const start = Math.round((r + from) / run.dt);
    const end = Math.round(((run.beats[n + 1] as { r: number }).r + from) / run.dt);
    if (end >= run.infrared.length) break;
    out.push(readBeat(run, r, start, end));
  }
  return out;
}

function readBeat(run: LimbRun, r: number, start: number, end: number): LimbBeat {
  const { dt, infrared } = run;
  const length = end - start;
  const first = infrared[start] as number;
  const slope = ((infrared[end] as number) - first) / length;
  // The pulse points upwards: less light.
  const pulse = (n: number) => first + slope * (n - start) - (infrared[n] as number);
  let high = Number.NEGATIVE_INFINITY;
  let low = Number.POSITIVE_INFINITY;
  let peak = start;
  let steep = 0;
  let steepest = start;
  for (let n = start; n < end; n++) {
    const value = pulse(n);
    low = Math.min(low, value);
    if (value > high) {
      high = value;
      peak = n;
    }
  }
  for (let n = start + 1; n <= peak; n++) {
    const rise = pulse(n) - pulse(n - 1);
    if (rise > steep) {
      steep = rise;
      steepest = n;
    }
  }
  let foot = Number.POSITIVE_INFINITY;
  for (let n = start; n <= steepest; n++) foot = Math.min(foot, pulse(n));
  const footAt =
    steep > 0 ? steepest - 0.5 - ((pulse(steepest) + pulse(steepest - 1)) / 2 - foot) / steep : start;
  const light = mean(infrared, start, end);
  return {
    r,
    perfusionIndex: (100 * (high - low)) / light,
    foot: footAt * dt - r + dt,
    peak: peak * dt - r + dt,
    systolic: extreme(run.upstream, start, end, Math.max),
    diastolic: extreme(run.upstream, start, end, Math.min),
    distal: extreme(run.downstream, start, end, Math.max),
    light,
    flow: mean(run.flow, start, end),
    muscle: mean(run.muscle, start, end),
    saturation: mean(run.saturation, start, end),
    cuff: mean(run.cuff, start, end),
    venous: mean(run.venous, start, end),
    gradient: mean(run.upstream, start, end) - mean(run.downstream, start, end),
  };
}

function mean(values: Float64Array, start: number, end: number): number {
  let sum = 0;
  for (let n = start; n < end; n++) sum += values[n] as number;
  return sum / (end - start);
}

function extreme(
  values: Float64Array,
  start: number,
  end: number,
  better: (a: number, b: number) => number,
): number {
  let out = values[start] as number;
  for (let n = start; n < end; n++) out = better(out, values[n] as number);
  return out;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const right = sorted[half] as number;
  return sorted.length % 2 === 1 ? right : ((sorted[half - 1] as number) + right) / 2;
}

/** Median of one reading over these beats. */
export function medianOf(beats: readonly LimbBeat[], reading: keyof LimbBeat): number {
  return median(beats.map((beat) => beat[reading]));
}

export function meanAndSpread(values: readonly number[]): { readonly mean: number; readonly sd: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) * (value - mean), 0);
  return { mean, sd: Math.sqrt(squares / (values.length - 1)) };
}

/** Beats whose R lies within these seconds. */
export function between(beats: readonly LimbBeat[], from: number, to: number): LimbBeat[] {
  return beats.filter((beat) => beat.r >= from && beat.r < to);
}
