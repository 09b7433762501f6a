/**
 * How alike the pulses of a stretch are, and whether their mean looks like a pulse at all.
 * Knows nothing of grades.
 */
import { movingAngle } from "./quality-sine.js";
import { createSineFit } from "./quality-sine-fit.js";
import type { TraceMemory } from "./trace-memory.js";

/** Points per pulse, and the most pulses looked at together. */
const points = 32;
const most = 32;
/** The part compared: this share of the shorter intervals from just before the foot, seconds at most. */
const share = 0.9;
const longest = 0.8;
const lead = 0.05;
/** No hum looks that much steeper in its rise than in its fall, so the search is spared. */
const steepEnough = 1.5;
/** Sines of these multiples of a shape's own pace are tried to explain it. */
const paces = [0.85, 0.925, 1, 1.05] as const;

export interface PulseShapes {
  /** How many pulses could be compared. */
  count: number;
  /** Correlation of each pulse with the mean of the others, averaged; 1 for copies, about 0 for chance. */
  meanCorrelation: number;
  /** The same for the least alike pulse. */
  minCorrelation: number;
  /** What the mean shape leaves unexplained, as a share of what it explains (rms). */
  rest: number;
  /** Steepest rise over steepest fall of the mean pulse: 1 for a sine, 1.5 to 5 for a pulse. */
  steepness: number;
  /** Foot to top of the mean pulse, seconds. */
  crest: number;
  /** Share of the mean pulse's energy that no single sine, with an offset and a slope, explains. */
  edge: number;
  /** How often a sine of the mean pulse's own pace would swing in one interval; 8 for a hum found as beats. */
  cycles: number;
  /** Mean size, channel units. */
  size: number;
  /** Largest over smallest size. */
  sizeRatio: number;
  /** Typical change of size from pulse to pulse: root mean square of the logarithm. */
  sizeJump: number;
  /** Largest move of the base from pulse to pulse, as a share of the median size. */
  baseMove: number;
}

export interface ShapeMeter {
  /**
   * Compares pulses `first` to `last` (inclusive) of the lists; the result is reused by the next call.
   *
   * @param feet      seconds, rising
   * @param intervals seconds from each foot to the next; NaN where there is none
   * @param typical   the lower quartile of the intervals, seconds
   * @param median    the middle one, seconds
   */
  measure(
    feet: Float64Array,
    intervals: Float64Array,
    count: number,
    typical: number,
    median: number,
  ): PulseShapes;
}

export function createShapeMeter(trace: TraceMemory): ShapeMeter {
  const pulses = new Float64Array(points * most);
  const lengths = new Int32Array(most);
  const norms = new Float64Array(most);
  const sizes = new Float64Array(most);
  const bases = new Float64Array(most);
  const sum = new Float64Array(points);
  const sines = createSineFit(points);
  const result: PulseShapes = {
    count: 0,
    meanCorrelation: Number.NaN,
    minCorrelation: Number.NaN,
    rest: Number.NaN,
    steepness: Number.NaN,
    crest: Number.NaN,
    edge: Number.NaN,
    cycles: Number.NaN,
    size: Number.NaN,
    sizeRatio: Number.NaN,
    sizeJump: Number.NaN,
    baseMove: Number.NaN,
  };

  /** Correlation of pulse `a` over its own length with the sum of all less `less` times itself. */
  function alike(a: number, other: Float64Array, otherAt: number, less: number, n: number): number {
    let mx = 0;
    let my = 0;
    let xx = 0;
    let yy = 0;
    let xy = 0;
    const at = a * points;
    for (let i = 0; i < n; i++) {
      const x = pulses[at + i]!;
      const y = other[otherAt + i]! - less * x;
      mx += x;
      my += y;
      xx += x * x;
      yy += y * y;
      xy += x * y;
    }
    const vx = xx - (mx * mx) / n;
    const vy = yy - (my * my) / n;
    return vx > 0 && vy > 0 ? (xy - (mx * my) / n) / Math.sqrt(vx * vy) : 0;
  }

  return {
    measure(feet, intervals, count, typical, median) {
      const span = Math.min(longest, share * typical);
      const step = (span + lead) / (points - 1);
      let n = 0;
      let whole = 0;
      sum.fill(0);
      for (let b = 0; b < count && n < most; b++) {
        const room = Number.isNaN(intervals[b]!) ? span : Math.min(span, 0.95 * intervals[b]!);
        const length = Math.min(points, Math.floor((room + lead) / step + 1e-9) + 1);
        if (length < points / 2) continue;
        const at = n * points;
        const total = trace.read(feet[b]! - lead, step, length, pulses, at);
        if (Number.isNaN(total)) continue;
        bases[n] = pulses[at + Math.round(lead / step)]!;
        const mean = total / length;
        let square = 0;
        let low = Number.POSITIVE_INFINITY;
        let high = Number.NEGATIVE_INFINITY;
        for (let i = at; i < at + length; i++) {
          const value = pulses[i]! - mean;
          pulses[i] = value;
          square += value * value;
          if (value < low) low = value;
          if (value > high) high = value;
        }
        const norm = Math.sqrt(square);
        if (!(norm > 0)) continue;
        for (let i = at; i < at + length; i++) pulses[i]! /= norm;
        norms[n] = norm;
        sizes[n] = high - low;
        lengths[n] = length;
        if (length === points) {
          for (let i = 0; i < points; i++) sum[i]! += pulses[at + i]!;
          whole++;
        }
        n++;
      }
      result.count = n;
      compare(n, whole);
      looks(step, whole);
      result.edge = whole > 0 ? edge((2 * Math.PI * step) / median) : Number.NaN;
      spread(n);
      return result;
    },
  };

  /** A hum may be faster than the beats found in it, so sines of its own pace are tried as well. */
  function edge(angle: number): number {
    const own = movingAngle(sum, points);
    result.cycles = own / angle;
    sines.about(sum);
    let least = sines.leftOver(angle);
    if (result.steepness >= steepEnough) return least;
    for (let k = 0; k < paces.length; k++) least = Math.min(least, sines.leftOver(paces[k]! * own));
    return least;
  }

  function compare(n: number, whole: number): void {
    let total = 0;
    let least = 1;
    let explained = 0;
    let unexplained = 0;
    for (let b = 0; b < n; b++) {
      const full = lengths[b] === points;
      const c = whole - (full ? 1 : 0) > 0 ? alike(b, sum, 0, full ? 1 : 0, lengths[b]!) : 0;
      total += c;
      if (c < least) least = c;
      const energy = norms[b]! * norms[b]!;
      explained += energy * Math.max(0, c) * Math.max(0, c);
      unexplained += energy * (1 - Math.max(0, c) * Math.max(0, c));
    }
    result.meanCorrelation = n > 1 ? total / n : Number.NaN;
    result.minCorrelation = n > 1 ? least : Number.NaN;
    result.rest = n > 1 ? Math.sqrt(unexplained / explained) : Number.NaN;
  }

  function looks(step: number, whole: number): void {
    // The top is looked for after the foot: on a falling base the pulse before may end higher.
    const foot = Math.round(lead / step);
    let top = foot;
    let rise = 0;
    let fall = 0;
    for (let i = 1; i < points; i++) {
      const move = sum[i]! - sum[i - 1]!;
      if (move > rise) rise = move;
      if (-move > fall) fall = -move;
      if (i > foot && sum[i]! > sum[top]!) top = i;
    }
    result.steepness = whole > 0 ? rise / fall : Number.NaN;
    result.crest = whole > 0 ? top * step - lead : Number.NaN;
  }

  function spread(n: number): void {
    let low = Number.POSITIVE_INFINITY;
    let high = 0;
    let mean = 0;
    let move = 0;
    let jumps = 0;
    for (let b = 0; b < n; b++) {
      low = Math.min(low, sizes[b]!);
      high = Math.max(high, sizes[b]!);
      mean += sizes[b]! / n;
      if (b > 0) jumps += Math.log(sizes[b]! / sizes[b - 1]!) ** 2;
      if (b > 0) move = Math.max(move, Math.abs(bases[b]! - bases[b - 1]!));
    }
    result.size = n > 0 ? mean : Number.NaN;
    result.sizeRatio = n > 0 ? high / low : Number.NaN;
    result.sizeJump = n > 1 ? Math.sqrt(jumps / (n - 1)) : Number.NaN;
    result.baseMove = n > 0 ? move / mean : Number.NaN;
  }
}
