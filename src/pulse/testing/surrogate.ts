/**
 * Takes the pulse out of a real recording, so that what is left is a real null. For tests and the accuracy run only.
 */
import { createFourier } from "../../dsp/spectrum.js";
import type { Random } from "./noise.js";

/** Beats on either side that tell what the pulse at a beat looks like; the beat itself has no say. */
const neighbours = 6;
const points = 64;
/** Ways in which neighbours differ from their mean (later, steeper, a changed notch) that are taken out with it. */
const ways = 3;
/** Power iterations per way: the largest way stands out, so few suffice. */
const turns = 12;

/**
 * The beat-locked part of a recording: at each beat the mean of its neighbours and the main ways in which they differ
 * from it, straight line from foot to foot taken off, each scaled to fit the beat (least squares). Zero outside beats,
 * in gaps and where an interval is longer than 2 s.
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
    const near = [
      ...shapes.slice(Math.max(0, i - neighbours), i),
      ...shapes.slice(i + 1, i + neighbours + 1),
    ];
    const fitted = explained(
      own,
      near.filter((shape) => shape !== null),
    );
    const start = feet[i]!;
    const end = feet[i + 1]!;
    for (let n = Math.ceil(start * rate); n < end * rate && n < out.length; n++) {
      const place = ((n / rate - start) / (end - start)) * points;
      const whole = Math.min(points - 1, Math.floor(place));
      out[n] = fitted[whole]! + (place - whole) * (fitted[whole + 1]! - fitted[whole]!);
    }
  });
  return out;
}

/** What of a beat its neighbours explain: their mean, then their main differences from it. */
function explained(own: Float64Array, near: readonly Float64Array[]): Float64Array {
  const sum = new Float64Array(points + 1);
  const mean = new Float64Array(points + 1);
  for (const shape of near) add(mean, shape, 1 / near.length);
  const length = Math.sqrt(dot(mean, mean));
  if (!(length > 0)) return sum;
  const unit = mean.map((x) => x / length);
  add(sum, unit, dot(own, unit));
  // Large beats differ in proportion: each is brought to the size of the mean before their differences are compared.
  const rests = near.map((shape) => {
    const size = dot(shape, unit);
    return shape.map((x, k) => (size > 0 ? (x - size * unit[k]!) / size : 0));
  });
  for (let way = 0; way < ways; way++) {
    const most = rests.reduce<Float64Array | null>(
      (best, rest) => (best === null || dot(rest, rest) > dot(best, best) ? rest : best),
      null,
    );
    if (most === null) break;
    let axis = most.slice();
    for (let turn = 0; turn < turns; turn++) {
      const next = new Float64Array(points + 1);
      for (const rest of rests) add(next, rest, dot(rest, axis));
      const norm = Math.sqrt(dot(next, next));
      if (!(norm > 0)) return sum;
      axis = next.map((x) => x / norm);
    }
    add(sum, axis, dot(own, axis));
    for (const rest of rests) add(rest, axis, -dot(rest, axis));
  }
  return sum;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}

function add(to: Float64Array, from: Float64Array, times: number): void {
  for (let k = 0; k < to.length; k++) to[k] = to[k]! + times * from[k]!;
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
