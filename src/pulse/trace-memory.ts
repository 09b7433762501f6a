/** The last seconds of the inner stream, to be looked at once the beats in it are known. */
import type { Hertz } from "../model/units.js";
import type { InnerBlock } from "./inner-stream.js";

/** At 94 samples/s, the fastest inner rate, some 21 s. */
const size = 2048;

export interface TraceMemory {
  readonly rate: Hertz;
  /** The last samples, number k at `k & mask`; for loops that keep within what is remembered by themselves. */
  readonly ring: Float64Array;
  readonly mask: number;
  take(block: InnerBlock): void;
  /** Number of inner samples taken so far. */
  length(): number;
  /** Number of the oldest sample still remembered. */
  oldest(): number;
  /** Sample number `k`; NaN if missing, not yet taken or forgotten. */
  sample(k: number): number;
  /**
   * Writes `count` values at `from`, `from` + `step`, … (seconds), straight lines between samples.
   * @returns their sum; NaN if any of them is missing or forgotten, `out` is then half written
   */
  read(from: number, step: number, count: number, out: Float64Array, at: number): number;
}

export function createTraceMemory(rate: Hertz): TraceMemory {
  const values = new Float64Array(size).fill(Number.NaN);
  const mask = size - 1;
  let taken = 0;
  return {
    rate,
    ring: values,
    mask,
    take({ first, count, values: source }) {
      for (let i = 0; i < count; i++) values[(first + i) & mask] = source[i]!;
      taken = first + count;
    },
    length: () => taken,
    oldest: () => Math.max(0, taken - size),
    sample: (k) => (k < 0 || k >= taken || k < taken - size ? Number.NaN : values[k & mask]!),
    read(from, step, count, out, at) {
      const first = from * rate;
      const stride = step * rate;
      const final = first + stride * (count - 1);
      if (!(first >= 0 && first >= taken - size && final < taken - 1)) return Number.NaN;
      let sum = 0;
      for (let i = 0; i < count; i++) {
        const place = first + i * stride;
        const k = Math.floor(place);
        const low = values[k & mask]!;
        const value = low + (place - k) * (values[(k + 1) & mask]! - low);
        out[at + i] = value;
        sum += value;
      }
      return sum;
    },
  };
}
