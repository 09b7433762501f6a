/**
 * Whether a wave keeps its delay to the reference through the window. A wave with a rhythm of its own close to
 * the heart's (mains alias, another person's pulse, a ventilator) slides along; a pulse doesn't.
 */
import { spectrumLines } from "../dsp/spectrum.js";
import type { BeatLines } from "./presence-lines.js";
import { type BeatGrid, pointsPerBeat } from "./presence-phase.js";
import { harmonicCount } from "./presence-template.js";

export interface Drift {
  /** Delay of the second half of the window minus that of the first, in beats; small drifts only. */
  readonly beats: number;
  /** Its standard error, in beats. */
  readonly error: number;
}

/** Compares the halves harmonic by harmonic, so the shape of the wave doesn't matter. */
export function measureDrift(grid: BeatGrid, lines: BeatLines): Drift {
  const half = Math.floor(grid.beats / 2);
  const points = half * pointsPerBeat;
  const early = grid.values.subarray(0, points);
  const late = grid.values.subarray(grid.values.length - points);
  let slide = 0;
  let strength = 0;
  for (let h = 1; h <= harmonicCount; h++) {
    const a = spectrumLines(early, h * half, h * half)[0]!;
    const b = spectrumLines(late, h * half, h * half)[0]!;
    const noise = lines.noise[h - 1]!;
    const sumRe = a.re + b.re;
    const sumIm = a.im + b.im;
    // Im of conj(sum) · difference: the turn between the halves, weighted by the power of the harmonic.
    slide += (h * (sumRe * (b.im - a.im) - sumIm * (b.re - a.re))) / noise;
    strength += (h * h * Math.max(0, sumRe * sumRe + sumIm * sumIm - 2 * noise)) / noise;
  }
  if (!(strength > 0)) return { beats: 0, error: Number.POSITIVE_INFINITY };
  return { beats: -slide / (Math.PI * strength), error: Math.SQRT2 / (Math.PI * Math.sqrt(2 * strength)) };
}

/**
 * Drift beyond this is not a pulse's: 0.05 beats after 2.5 standard errors are taken off. Over 20 s the marked
 * recordings drift by up to 0.06 beats against feet of the other marks and R waves, none beyond this. Working default.
 */
const mostDrift = 0.05;
const deviations = 2.5;

/** Whether the wave slides along the reference by more than any pulse does. */
export function slides(grid: BeatGrid, lines: BeatLines): boolean {
  const drift = measureDrift(grid, lines);
  return Math.abs(drift.beats) - deviations * drift.error > mostDrift;
}
