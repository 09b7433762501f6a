/**
 * One channel of a FLAC frame: predictor and residual.
 *
 * @see RFC 9639, section 9.2
 */
import type { BitReader } from "./flac-bits.js";

/** Factors of the fixed predictors, newest sample first, by order. */
const fixed: readonly (readonly number[])[] = [[], [1], [2, -1], [3, -3, 1], [4, -6, 4, -1]];

/**
 * @param size  bits per sample in this channel
 * @param count samples
 * @returns false if the bits can't be a subframe
 */
export function decodeSubframe(bits: BitReader, size: number, count: number, out: Int32Array): boolean {
  if (bits.take(1) !== 0) return false;
  const type = bits.take(6);
  const wasted = bits.take(1) === 1 ? bits.unary() + 1 : 0;
  const width = size - wasted;
  if (width < 1) return false;
  if (type === 0) {
    out.fill(bits.takeSigned(width), 0, count);
  } else if (type === 1) {
    for (let n = 0; n < count && !bits.overrun; n++) out[n] = bits.takeSigned(width);
  } else if (type >= 8 && type <= 12) {
    if (!predicted(bits, width, count, out, type - 8, null)) return false;
  } else if (type >= 32) {
    if (!predicted(bits, width, count, out, type - 31, "linear")) return false;
  } else return false;
  if (wasted > 0) for (let n = 0; n < count; n++) out[n] = (out[n] as number) << wasted;
  return !bits.overrun;
}

function predicted(
  bits: BitReader,
  width: number,
  count: number,
  out: Int32Array,
  order: number,
  linear: "linear" | null,
): boolean {
  if (order > count) return false;
  for (let n = 0; n < order; n++) out[n] = bits.takeSigned(width);
  let factors = fixed[order] ?? [];
  let shift = 0;
  if (linear !== null) {
    const precision = bits.take(4) + 1;
    shift = bits.takeSigned(5);
    if (precision === 16 || shift < 0) return false;
    factors = Array.from({ length: order }, () => bits.takeSigned(precision));
  }
  if (!residual(bits, count, order, out)) return false;
  // Sums of 24-bit samples times 15-bit factors pass 32 bits but stay exact in a double.
  const scale = 2 ** shift;
  for (let n = order; n < count; n++) {
    let sum = 0;
    for (let k = 0; k < order; k++) sum += (factors[k] as number) * (out[n - 1 - k] as number);
    out[n] = (out[n] as number) + Math.floor(sum / scale);
  }
  return true;
}

/** Residuals into `out` from `order` on: Rice codes in partitions, each with its own parameter. */
function residual(bits: BitReader, count: number, order: number, out: Int32Array): boolean {
  const method = bits.take(2);
  if (method > 1) return false;
  const width = method === 0 ? 4 : 5;
  const unpacked = 2 ** width - 1;
  const partitions = 2 ** bits.take(4);
  const each = count / partitions;
  if (!Number.isInteger(each) || each < order) return false;
  let n = order;
  for (let p = 0; p < partitions; p++) {
    const end = (p + 1) * each;
    const parameter = bits.take(width);
    if (parameter === unpacked) {
      const raw = bits.take(5);
      for (; n < end; n++) out[n] = raw === 0 ? 0 : bits.takeSigned(raw);
    } else {
      for (; n < end; n++) {
        const folded = bits.unary() * 2 ** parameter + bits.take(parameter);
        out[n] = folded % 2 === 0 ? folded / 2 : -(folded + 1) / 2;
      }
    }
    if (bits.overrun) return false;
  }
  return true;
}
