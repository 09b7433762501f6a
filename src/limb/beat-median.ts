/** The median of a beat-by-beat series, with an interval that knows neighbouring beats are alike. */
import type { Estimate } from "../model/index.js";

/**
 * 97.5 % quantile of Student's t; within 1 % for `freedom` ≥ 2.
 * @see M. Abramowitz and I. A. Stegun, "Handbook of Mathematical Functions", 26.7.5
 */
export function studentQuantile(freedom: number): number {
  const z = 1.959964;
  return (
    z +
    (z ** 3 + z) / (4 * freedom) +
    (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * freedom ** 2) +
    (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / (384 * freedom ** 3) +
    (79 * z ** 9 + 776 * z ** 7 + 1482 * z ** 5 - 1920 * z ** 3 - 945 * z) / (92160 * freedom ** 4)
  );
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** A median, its standard error, and how many independent beats it is worth. */
export interface BeatMedian {
  readonly value: number;
  readonly error: number;
  readonly count: number;
  /** 2 to `count`; fewer when neighbouring beats are alike, as under breathing. */
  readonly effective: number;
}

/**
 * Median of `values` in beat order. Likeness of neighbours is taken as a first-order process whose
 * lag-one correlation is raised by the bias it has in short series (Marriott and Pope 1954: from memory).
 *
 * @returns `null` with fewer than 5 values (`reading.beats`)
 */
export function beatMedian(values: readonly number[]): BeatMedian | null {
  const n = values.length;
  if (n < 5) return null;
  const value = median(values);
  const mean = values.reduce((sum, x) => sum + x, 0) / n;
  let square = 0;
  let lagged = 0;
  for (let i = 0; i < n; i++) {
    square += (values[i]! - mean) ** 2;
    if (i > 0) lagged += (values[i]! - mean) * (values[i - 1]! - mean);
  }
  // One stray beat must not widen the interval, half the beats being equal must not close it.
  const robust = 1.4826 * median(values.map((x) => Math.abs(x - value)));
  const spread = robust > 0 ? robust : Math.sqrt(square / (n - 1));
  const measured = square > 0 ? lagged / square : 0;
  const alike = Math.min(0.9, Math.max(0, measured + (1 + 3 * Math.max(0, measured)) / n));
  const effective = Math.max(2, (n * (1 - alike)) / (1 + alike));
  return { value, error: (1.2533 * spread) / Math.sqrt(effective), count: n, effective };
}

/** Half-width of the 95 % interval of a median. */
export function halfWidth(of: BeatMedian): number {
  return studentQuantile(Math.max(2, of.effective - 1)) * of.error;
}

/** Median with its 95 % interval, after `shape` has turned value and ends into the unit asked for. */
export function estimate<Unit extends number>(of: BeatMedian, shape: (x: number) => Unit): Estimate<Unit> {
  const ends = [shape(of.value - halfWidth(of)), shape(of.value + halfWidth(of))];
  return {
    value: shape(of.value),
    low: Math.min(...ends) as Unit,
    high: Math.max(...ends) as Unit,
    count: of.count,
  };
}
