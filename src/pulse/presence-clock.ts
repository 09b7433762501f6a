/**
 * Whether a window holds a tone that runs by the clock or a wave that follows the beats. Real beats never come
 * evenly: a tone of steady frequency smears when it is laid out beat by beat, and a pulse smears when it is not.
 */
import { type BeatGrid, pointsPerBeat } from "./presence-phase.js";
import { harmonicCount } from "./presence-template.js";

/** Frequencies tried lie within so many turns over the window of each harmonic, at most so far apart. */
const reach = 1.5;
const turnsApart = 1 / 32;
const mostSteps = 400;

const cosines = Float64Array.from({ length: pointsPerBeat }, (_, k) =>
  Math.cos((2 * Math.PI * k) / pointsPerBeat),
);
const sines = Float64Array.from({ length: pointsPerBeat }, (_, k) =>
  Math.sin((2 * Math.PI * k) / pointsPerBeat),
);

/** One complex amplitude per beat: harmonic `h` of each beat by itself. */
function amplitudes({ beats, values }: BeatGrid, h: number): { re: Float64Array; im: Float64Array } {
  const re = new Float64Array(beats);
  const im = new Float64Array(beats);
  for (let b = 0; b < beats; b++) {
    for (let k = 0; k < pointsPerBeat; k++) {
      const x = values[b * pointsPerBeat + k]!;
      re[b] = re[b]! + x * cosines[(h * k) % pointsPerBeat]!;
      im[b] = im[b]! - x * sines[(h * k) % pointsPerBeat]!;
    }
  }
  return { re, im };
}

/** Power of the amplitudes that turns at `frequency`, Hz, by the clock. */
function powerAt(re: Float64Array, im: Float64Array, times: Float64Array, frequency: number): number {
  let sumRe = 0;
  let sumIm = 0;
  for (let b = 0; b < times.length; b++) {
    const turn = 2 * Math.PI * frequency * (times[b]! - times[0]!);
    const c = Math.cos(turn);
    const s = Math.sin(turn);
    sumRe += re[b]! * c + im[b]! * s;
    sumIm += im[b]! * c - re[b]! * s;
  }
  return (sumRe * sumRe + sumIm * sumIm) / times.length;
}

/**
 * Logarithm of how much better one steady tone near one harmonic explains the window than a wave of any shape
 * locked to the beats, noise unknown in both. Three harmonics of nothing cost the tone about three.
 *
 * Without noise or with too little to go by it is not a number and compares as neither.
 */
export function favoursTone(grid: BeatGrid): number {
  const { beats, middles, seconds } = grid;
  const span = middles[beats - 1]! - middles[0]! + seconds / beats;
  const step = Math.max(turnsApart / span, (2 * reach) / seconds / mostSteps);
  const steps = Math.ceil(reach / seconds / step);
  let locked = 0;
  let tone = 0;
  for (let h = 1; h <= harmonicCount; h++) {
    const { re, im } = amplitudes(grid, h);
    let power = 0;
    let sumRe = 0;
    let sumIm = 0;
    for (let b = 0; b < beats; b++) {
      power += re[b]! ** 2 + im[b]! ** 2;
      sumRe += re[b]!;
      sumIm += im[b]!;
    }
    locked += beats * Math.log(power / (power - (sumRe ** 2 + sumIm ** 2) / beats));
    let most = 0;
    for (let s = -steps; s <= steps; s++) {
      most = Math.max(most, powerAt(re, im, middles, (h * beats) / seconds + s * step));
    }
    tone = Math.max(tone, beats * Math.log(power / (power - most)));
  }
  return tone - locked;
}
