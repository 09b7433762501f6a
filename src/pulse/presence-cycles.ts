/**
 * Whether the cycles of a rhythm look like pulses: alike, of like size, rising faster than they fall.
 * A rhythm alone proves nothing: breathing, swings of the limb and mains alias have one too.
 */
import type { Rhythm } from "./presence-comb.js";

const points = 24;
const most = 64;

/** Working defaults. */
const leastMedianLikeness = 0.8;
const leastLowLikeness = 0.5;
const mostSizeRatio = 3.5;
const leastSecondHarmonic = 0.12;
/** Below this share of the second harmonic the rate is half of the true one; `data2` has 0.88. */
const leastFirstHarmonic = 0.75;
const leastSkew = 0.15;
/** The upper 95 % point of chi-square with six degrees of freedom: a lone tone has no upper harmonics. */
const leastUpper = 12.59;
/** Below 36/min a rhythm by itself may be breathing. Common practice, no source. */
const slowestClaimed = 0.6;
/** Each cycle may lie up to this share of the period early or late. */
const slack = 0.1;

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

/** Cosine of two cycles of zero mean. */
function likeness(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let cross = 0;
  let aa = 0;
  let bb = 0;
  for (let i = 0; i < points; i++) {
    cross += a[i]! * b[i]!;
    aa += a[i]! ** 2;
    bb += b[i]! ** 2;
  }
  return aa > 0 && bb > 0 ? cross / Math.sqrt(aa * bb) : 0;
}

/** Reads one cycle from `start` on at `points` points, straight line and mean taken off. */
function readCycle(
  values: Float64Array,
  rate: number,
  start: number,
  period: number,
  into: Float64Array,
): boolean {
  const at = (time: number): number => {
    const place = time * rate;
    const whole = Math.floor(place);
    if (whole < 0 || whole + 1 >= values.length) return Number.NaN;
    return values[whole]! + (place - whole) * (values[whole + 1]! - values[whole]!);
  };
  const first = at(start);
  const tilt = at(start + period) - first;
  if (!Number.isFinite(tilt)) return false;
  let mean = 0;
  for (let i = 0; i < points; i++) {
    into[i] = at(start + (period * i) / points) - first - (tilt * i) / points;
    mean += into[i]! / points;
  }
  for (let i = 0; i < points; i++) into[i] = into[i]! - mean;
  return true;
}

function middleCycle(cycles: readonly Float64Array[]): Float64Array {
  return Float64Array.from({ length: points }, (_, i) =>
    quantile(
      cycles.map((cycle) => cycle[i]!),
      0.5,
    ),
  );
}

/** Size of a harmonic of a cycle relative to the others. */
function harmonic(cycle: Float64Array, h: number): number {
  let re = 0;
  let im = 0;
  for (let i = 0; i < points; i++) {
    re += cycle[i]! * Math.cos((2 * Math.PI * h * i) / points);
    im += cycle[i]! * Math.sin((2 * Math.PI * h * i) / points);
  }
  return Math.hypot(re, im);
}

/** Skewness of the slope, without unit: above 0 when the wave rises faster than it falls. */
function slopeSkew(cycle: Float64Array): number {
  let square = 0;
  let cube = 0;
  for (let i = 0; i < points; i++) {
    const slope = cycle[(i + 1) % points]! - cycle[i]!;
    square += slope ** 2 / points;
    cube += slope ** 3 / points;
  }
  return square > 0 ? cube / square ** 1.5 : 0;
}

/**
 * @param values samples with drift taken off, systole upwards
 * @returns whether at least three cycles of the rhythm repeat with the shape of a pulse
 */
export function looksLikePulses(values: Float64Array, rate: number, rhythm: Rhythm): boolean {
  const period = 1 / rhythm.frequency;
  if (rhythm.frequency < slowestClaimed || rhythm.slower >= rhythm.score || rhythm.upper < leastUpper)
    return false;
  const starts: number[] = [];
  let cycles: Float64Array[] = [];
  for (
    let start = rhythm.foot;
    start + period < values.length / rate && starts.length < most;
    start += period
  ) {
    const cycle = new Float64Array(points);
    if (!readCycle(values, rate, start, period, cycle)) continue;
    starts.push(start);
    cycles.push(cycle);
  }
  if (cycles.length < 3) return false;
  const model = middleCycle(cycles);
  const tried = new Float64Array(points);
  cycles = cycles.map((cycle, i) => {
    let best = likeness(cycle, model);
    let kept = cycle;
    for (const off of [-1, -0.5, 0.5, 1]) {
      if (!readCycle(values, rate, starts[i]! + off * slack * period, period, tried)) continue;
      const found = likeness(tried, model);
      if (found > best) {
        best = found;
        kept = tried.slice();
      }
    }
    return kept;
  });
  const shape = middleCycle(cycles);
  const alike = cycles.map((cycle) => likeness(cycle, shape));
  const sizes = cycles.map((cycle) => Math.hypot(...cycle));
  return (
    quantile(alike, 0.5) > leastMedianLikeness &&
    quantile(alike, 0.15) > leastLowLikeness &&
    quantile(sizes, 0.85) < mostSizeRatio * quantile(sizes, 0.15) &&
    harmonic(shape, 2) > leastSecondHarmonic * harmonic(shape, 1) &&
    harmonic(shape, 1) > leastFirstHarmonic * harmonic(shape, 2) &&
    slopeSkew(shape) > leastSkew
  );
}
