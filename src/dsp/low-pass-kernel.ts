/**
 * Symmetric low-pass kernels: a sinc under a Kaiser window. Symmetry is the point: such
 * a kernel delays every frequency alike, so the time of an output sample is exact.
 */
import { DspError } from "./errors.js";

/** Modified Bessel function of the first kind, order 0, by its power series. */
function besselI0(x: number): number {
  const quarter = (x * x) / 4;
  let term = 1;
  let sum = 1;
  for (let k = 1; term > sum * 1e-17; k++) {
    term *= quarter / (k * k);
    sum += term;
  }
  return sum;
}

/**
 * Taps of a low-pass at `offset`, `offset` + 1, … samples from the centre, for one half of
 * the kernel; the other half mirrors it. The whole kernel sums to 1, so a constant passes unchanged.
 *
 * @param cutoff  −6 dB point in cycles per sample; above 0, below 0.5 unless the kernel interpolates
 * @param half    distance in samples from the centre to where the window ends, at least 1
 * @param beta    shape of the Kaiser window; 4 holds the side lobes about 45 dB down
 * @param offset  0: a tap sits on the centre (odd length); 0.5: the centre lies midway between two taps
 * @returns for `offset` 0 the centre tap first
 * @throws {DspError} `argument-out-of-range`
 * @see A. V. Oppenheim and R. W. Schafer, "Discrete-Time Signal Processing", chapter on
 *   FIR design by windowing (title from memory); checked against SciPy's `firwin`
 */
export function lowPassHalfKernel(cutoff: number, half: number, beta: number, offset: 0 | 0.5): Float64Array {
  if (!(cutoff > 0 && Number.isFinite(cutoff) && half >= 1 && Number.isFinite(half) && beta >= 0)) {
    throw new DspError("argument-out-of-range", `cutoff ${cutoff}, half length ${half}, beta ${beta}`);
  }
  const taps = new Float64Array(Math.floor(half - offset + 1e-9) + 1);
  let sum = 0;
  for (let i = 0; i < taps.length; i++) {
    const at = i + offset;
    const angle = 2 * Math.PI * cutoff * at;
    const sinc = at === 0 ? 1 : Math.sin(angle) / angle;
    const edge = Math.max(0, 1 - (at / half) ** 2);
    const tap = sinc * besselI0(beta * Math.sqrt(edge));
    taps[i] = tap;
    sum += at === 0 ? tap : 2 * tap;
  }
  for (let i = 0; i < taps.length; i++) taps[i]! /= sum;
  return taps;
}
