/**
 * Takes the pulse out of a real recording, so that what is left is a real null. For tests and the accuracy run only.
 */
import { createFourier } from "../../dsp/spectrum.js";
import type { Random } from "./noise.js";

/** Beats on either side whose average is taken for the pulse at a beat. */
const neighbours = 6;
const points = 64;

/**
 * The beat-locked part of a recording: at each beat the average of its neighbours, straight line from foot to foot
 * taken off, scaled to fit the beat. Zero outside beats, in gaps and where an interval is longer than 2 s.
 *
 * @param feet times of the feet, s from the first sample, ascending
 */
export function pulsePart(values: Float64Array, rate: number, feet: readonly number[]): Float64Array {
  const out = new Float64Array(values.length);
  const at = (time: number): number => {
    const place = time * rate;
    const whole = Math.min(values.length - 2, Math.max(0, Math.floor(place)));
    return values[whole]! + (place - whole) * (values[whole + 1]! - values[whole]!);
  };
  const shapes = feet.slice(1).map((end, i) => {
    const start = feet[i]!;
    if (start < 0 || end > (values.length - 1) / rate || end - start > 2) return null;
    const low = at(start);
    const tilt = at(end) - low;
    const shape = Float64Array.from({ length: points + 1 }, (_, k) => {
      return at(start + ((end - start) * k) / points) - low - (tilt * k) / points;
    });
    return shape.every(Number.isFinite) ? shape : null;
  });
  shapes.forEach((own, i) => {
    if (own === null) return;
    const near = shapes
      .slice(Math.max(0, i - neighbours), i + neighbours + 1)
      .filter((shape) => shape !== null);
    const mean = new Float64Array(points + 1);
    for (const shape of near) for (let k = 0; k <= points; k++) mean[k] = mean[k]! + shape[k]! / near.length;
    let cross = 0;
    let power = 0;
    for (let k = 0; k <= points; k++) {
      cross += mean[k]! * own[k]!;
      power += mean[k]! ** 2;
    }
    const scale = power > 0 ? cross / power : 0;
    const start = feet[i]!;
    const end = feet[i + 1]!;
    for (let n = Math.ceil(start * rate); n < end * rate && n < out.length; n++) {
      const place = ((n / rate - start) / (end - start)) * points;
      const whole = Math.min(points - 1, Math.floor(place));
      out[n] = scale * (mean[whole]! + (place - whole) * (mean[whole + 1]! - mean[whole]!));
    }
  });
  return out;
}

/**
 * Same amplitude spectrum, phases drawn anew. The straight line between the ends is taken off first and not put back.
 * @param values a power of two of finite samples
 */
export function randomisePhases(values: Float64Array, random: Random): Float64Array {
  const size = values.length;
  const tilt = (values[size - 1]! - values[0]!) / (size - 1);
  const re = Float64Array.from(values, (x, n) => x - values[0]! - tilt * n);
  const im = new Float64Array(size);
  const fourier = createFourier(size);
  fourier.transform(re, im);
  for (let k = 1; k < size / 2; k++) {
    const power = Math.hypot(re[k]!, im[k]!);
    const turn = 2 * Math.PI * random();
    re[k] = power * Math.cos(turn);
    im[k] = power * Math.sin(turn);
    re[size - k] = re[k]!;
    im[size - k] = -im[k]!;
  }
  im[0] = 0;
  im[size / 2] = 0;
  // The inverse transform of a Hermitian spectrum: transform the conjugate, divide by the size.
  for (let k = 0; k < size; k++) im[k] = -im[k]!;
  fourier.transform(re, im);
  return re.map((x) => x / size);
}
