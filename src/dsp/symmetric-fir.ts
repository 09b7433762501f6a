/**
 * The inner loops of a symmetric FIR filter that is evaluated at every `step`-th sample only.
 * Plain functions over arrays: no state, no bounds of their own.
 */

/**
 * Convolution with an odd, symmetric kernel: `out[to + i] = Σ h·x` centred on `x[from + i * step]`.
 *
 * @param half centre tap, then the taps of one side; x must hold `half.length - 1` samples on both sides
 */
export function filterEvery(
  x: Float64Array,
  from: number,
  step: number,
  half: Float64Array,
  count: number,
  out: Float64Array,
  to: number,
): void {
  const taps = half.length;
  const centre = half[0]!;
  let p = from;
  let i = 0;
  // Four results at once: the loads of a tap are shared and the sums don't wait for each other.
  for (; i + 4 <= count; i += 4) {
    const p1 = p + step;
    const p2 = p1 + step;
    const p3 = p2 + step;
    let s0 = centre * x[p]!;
    let s1 = centre * x[p1]!;
    let s2 = centre * x[p2]!;
    let s3 = centre * x[p3]!;
    for (let j = 1; j < taps; j++) {
      const h = half[j]!;
      s0 += h * (x[p - j]! + x[p + j]!);
      s1 += h * (x[p1 - j]! + x[p1 + j]!);
      s2 += h * (x[p2 - j]! + x[p2 + j]!);
      s3 += h * (x[p3 - j]! + x[p3 + j]!);
    }
    out[to + i] = s0;
    out[to + i + 1] = s1;
    out[to + i + 2] = s2;
    out[to + i + 3] = s3;
    p = p3 + step;
  }
  for (; i < count; i++) {
    let s = centre * x[p]!;
    for (let j = 1; j < taps; j++) s += half[j]! * (x[p - j]! + x[p + j]!);
    out[to + i] = s;
    p += step;
  }
}

/**
 * The same with an even kernel: the centre lies midway between `x[at]` and `x[at + 1]`.
 *
 * @param half taps at 0.5, 1.5, … samples from the centre
 */
export function filterMidway(x: Float64Array, at: number, half: Float64Array): number {
  let s = 0;
  for (let j = 0; j < half.length; j++) s += half[j]! * (x[at - j]! + x[at + 1 + j]!);
  return s;
}
