/**
 * Discrete Fourier transforms of short windows. Knows nothing of beats.
 * Tables are made once per size, the transform itself allocates nothing.
 */
import { DspError } from "./errors.js";

export interface Fourier {
  readonly size: number;
  /**
   * Transforms in place: X_k = Σ x_n e^{−2πikn/size}.
   * `re` and `im` have `size` entries, any unit; no scaling is applied.
   */
  transform(re: Float64Array, im: Float64Array): void;
}

/**
 * Radix-2 transform of one size.
 *
 * @param size a power of two from 2 to 2^20
 * @throws {DspError} `size-out-of-range`; also from `transform` if the arrays have another length
 * @see J. W. Cooley and J. W. Tukey, Math. Comput. 19:297-301, 1965
 */
export function createFourier(size: number): Fourier {
  if (!Number.isInteger(Math.log2(size)) || size < 2 || size > 2 ** 20) {
    throw new DspError("size-out-of-range", `transform of ${size} points`);
  }
  const cosines = new Float64Array(size / 2);
  const sines = new Float64Array(size / 2);
  for (let k = 0; k < size / 2; k++) {
    cosines[k] = Math.cos((2 * Math.PI * k) / size);
    sines[k] = Math.sin((2 * Math.PI * k) / size);
  }
  const reversed = new Uint32Array(size);
  for (let n = 1; n < size; n++) reversed[n] = (reversed[n >> 1]! >> 1) | (n & 1 ? size >> 1 : 0);

  return {
    size,
    transform(re, im) {
      if (re.length !== size || im.length !== size) {
        throw new DspError("size-out-of-range", `${re.length} and ${im.length} points for ${size}`);
      }
      for (let n = 0; n < size; n++) {
        const m = reversed[n]!;
        if (m > n) {
          const r = re[n]!;
          re[n] = re[m]!;
          re[m] = r;
          const i = im[n]!;
          im[n] = im[m]!;
          im[m] = i;
        }
      }
      // Of two points there is nothing to turn.
      for (let a = 0; a < size; a += 2) {
        const r = re[a + 1]!;
        const i = im[a + 1]!;
        re[a + 1] = re[a]! - r;
        im[a + 1] = im[a]! - i;
        re[a] = re[a]! + r;
        im[a] = im[a]! + i;
      }
      for (let half = 2, stride = size / 4; half < size; half *= 2, stride /= 2) {
        for (let start = 0; start < size; start += 2 * half) {
          for (let k = 0, w = 0; k < half; k++, w += stride) {
            const a = start + k;
            const b = a + half;
            const c = cosines[w]!;
            const s = sines[w]!;
            const r = re[b]! * c + im[b]! * s;
            const i = im[b]! * c - re[b]! * s;
            re[b] = re[a]! - r;
            im[b] = im[a]! - i;
            re[a] = re[a]! + r;
            im[a] = im[a]! + i;
          }
        }
      }
    },
  };
}

/** One line of a spectrum. */
export interface Line {
  readonly re: number;
  readonly im: number;
}

/**
 * Lines `from` to `to` (both included) of the transform of `values`, of any length N:
 * X_k = Σ x_n e^{−2πikn/N} / √N, so white noise of variance σ² has E|X_k|² = σ².
 * Straight sums: meant for a few lines of a short window.
 *
 * @throws {DspError} `argument-out-of-range` unless 0 ≤ from ≤ to are whole numbers and N > 0
 */
export function spectrumLines(values: ArrayLike<number>, from: number, to: number): Line[] {
  const size = values.length;
  if (!(Number.isInteger(from) && Number.isInteger(to) && from >= 0 && from <= to && size > 0)) {
    throw new DspError("argument-out-of-range", `lines ${from} to ${to} of ${size} points`);
  }
  const cosines = new Float64Array(size);
  const sines = new Float64Array(size);
  for (let n = 0; n < size; n++) {
    cosines[n] = Math.cos((2 * Math.PI * n) / size);
    sines[n] = Math.sin((2 * Math.PI * n) / size);
  }
  const scale = 1 / Math.sqrt(size);
  const lines: Line[] = [];
  for (let k = from; k <= to; k++) {
    let re = 0;
    let im = 0;
    for (let n = 0, w = 0; n < size; n++) {
      const x = values[n]!;
      re += x * cosines[w]!;
      im -= x * sines[w]!;
      w += k;
      if (w >= size) w %= size;
    }
    lines.push({ re: re * scale, im: im * scale });
  }
  return lines;
}
