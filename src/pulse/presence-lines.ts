/** Spectral lines at the harmonics of the beat, and the noise around each, taken from between them. */
import { spectrumLines } from "../dsp/spectrum.js";
import { type BeatGrid, pointsPerBeat } from "./presence-phase.js";
import { harmonicCount } from "./presence-template.js";

/** The fewest whole beats from which noise can be told from the pulse: one line each side of a harmonic. */
export const fewestBeats = 4;

export interface BeatLines {
  /** Line of harmonic h at index h − 1, phase counted from the reference beat. */
  readonly re: readonly number[];
  readonly im: readonly number[];
  /** Noise power of the line, same scale as |re + i·im|². */
  readonly noise: readonly number[];
  /** Degrees of freedom behind each noise value. */
  readonly freedom: number;
  /** A wave A·cos(2πhφ) has a line of size A / `amplitudePerLine`. */
  readonly amplitudePerLine: number;
}

/** Gain of the moving mean's removal at line `k` of a grid of `points` points; 1 at every harmonic. */
function gainAt(k: number, points: number): number {
  const half = (Math.PI * k) / points;
  return 1 - (Math.sin(pointsPerBeat * half) * Math.cos(half)) / (pointsPerBeat * Math.sin(half));
}

const sinc = (x: number) => Math.sin(Math.PI * x) / (Math.PI * x);

/**
 * Lines of `grid`; noise as the mean power of the J = ⌊M/2⌋ − 1 lines on either side of each harmonic.
 * @param grid at least `fewestBeats` beats
 */
export function beatLines(grid: BeatGrid): BeatLines {
  const { beats, values } = grid;
  const around = Math.floor((beats - 1) / 2);
  const first = beats - around;
  const lines = spectrumLines(values, first, harmonicCount * beats + around);
  const re: number[] = [];
  const im: number[] = [];
  const noise: number[] = [];
  for (let h = 1; h <= harmonicCount; h++) {
    const centre = h * beats - first;
    let power = 0;
    for (let j = 1; j <= around; j++) {
      for (const k of [centre - j, centre + j]) {
        const line = lines[k]!;
        power += (line.re ** 2 + line.im ** 2) / gainAt(k + first, values.length) ** 2;
      }
    }
    noise.push(power / (2 * around));
    // The grid starts at `firstPhase`, the template at the reference beat; a cell's mean is sinc(h/L) smaller, and the
    // straight line between samples (sinc(h/n))², at n samples a beat.
    const turn = 2 * Math.PI * h * grid.firstPhase;
    const shrink = sinc(h / pointsPerBeat) * sinc(h / grid.samplesPerBeat) ** 2;
    const line = lines[centre]!;
    re.push((line.re * Math.cos(turn) + line.im * Math.sin(turn)) / shrink);
    im.push((line.im * Math.cos(turn) - line.re * Math.sin(turn)) / shrink);
    noise[h - 1]! /= shrink ** 2;
  }
  return { re, im, noise, freedom: 4 * around, amplitudePerLine: 2 / Math.sqrt(values.length) };
}
