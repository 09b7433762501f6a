/**
 * Stretches a window so that every reference beat takes the same number of points, and takes
 * away what is slower than the beat. Knows nothing of templates or chance.
 */

/** Points per beat: enough for four harmonics with the averaging loss of the fourth below 0.4 dB. */
export const pointsPerBeat = 24;

/** An interval between reference beats outside these bounds is a missed or an extra mark, or no heart beat. */
const shortest = 0.25;
const longest = 2.5;
const shortestOfMedian = 0.5;
const longestOfMedian = 1.8;
/** Beats a reference is carried on beyond its ends. */
const carried = 0.5;

/** Points of whole beats, end to end. */
export interface BeatGrid {
  readonly beats: number;
  /** `beats × pointsPerBeat` values in the input's unit, one-beat moving mean taken away. */
  readonly values: Float64Array;
  /** Time of the middle of each beat, s from the first sample, and the length of all beats together, s. */
  readonly middles: Float64Array;
  readonly seconds: number;
  /** Phase of the middle of the first point, in beats after a reference beat. */
  readonly firstPhase: number;
  /** Median reference interval, s. */
  readonly interval: number;
  /** Standard deviation of the intervals over their mean: how far a delay in seconds strays from one in beats. */
  readonly scatter: number;
  /** Samples behind one beat of that length. */
  readonly samplesPerBeat: number;
}

/** A run of reference beats without a missed or extra one: times against phase, carried on beyond its ends. */
interface PhaseRun {
  readonly times: readonly number[];
  readonly phases: readonly number[];
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** Cuts the reference where an interval cannot be one beat, and carries each run on a little beyond its ends. */
function phaseRuns(beats: readonly number[]): { runs: PhaseRun[]; interval: number; scatter: number } {
  const marks = beats.filter(Number.isFinite).sort((a, b) => a - b);
  const usable = (gap: number) => gap >= shortest && gap <= longest;
  const intervals = marks.slice(1).map((time, i) => time - marks[i]!);
  const fair = intervals.filter(usable);
  if (fair.length === 0) return { runs: [], interval: Number.NaN, scatter: 0 };
  const typical = median(fair);
  const good = intervals.map(
    (gap) => usable(gap) && gap >= shortestOfMedian * typical && gap <= longestOfMedian * typical,
  );
  const runs: PhaseRun[] = [];
  for (let first = 0; first < good.length; first++) {
    if (!good[first]) continue;
    let last = first;
    while (last + 1 < good.length && good[last + 1]) last++;
    const inner = marks.slice(first, last + 2);
    // Beyond the first and last mark half a beat is taken to be as long as its neighbour; of a doubtful interval
    // beside the run nothing is used.
    const before = first > 0 ? [] : [-carried];
    const after = last + 1 < good.length ? [] : [carried];
    runs.push({
      times: [
        ...before.map((beats) => inner[0]! + beats * intervals[first]!),
        ...inner,
        ...after.map((beats) => inner.at(-1)! + beats * intervals[last]!),
      ],
      phases: [...before, ...inner.map((_, i) => i), ...after.map((beats) => inner.length - 1 + beats)],
    });
    first = last;
  }
  const kept = intervals.filter((_, i) => good[i]);
  const mean = kept.reduce((sum, gap) => sum + gap, 0) / kept.length;
  const square = kept.reduce((sum, gap) => sum + (gap - mean) ** 2, 0) / Math.max(1, kept.length - 1);
  return { runs, interval: typical, scatter: kept.length > 0 ? Math.sqrt(square) / mean : 0 };
}

/** Integral of the straight-line interpolation of a gap-free stretch, from its first sample on. */
function runningIntegral(values: ArrayLike<number>, from: number, to: number, level: number): Float64Array {
  const sums = new Float64Array(to - from + 1);
  for (let i = 1; i <= to - from; i++) {
    sums[i] = sums[i - 1]! + (values[from + i - 1]! + values[from + i]!) / 2 - level;
  }
  return sums;
}

/** Means of the stretch over the grid cells that lie within a gap-free stretch and a phase run. */
interface Cells {
  /** Number of the first cell counted from phase 0 of its run. */
  readonly first: number;
  readonly means: Float64Array;
  /** Time at which each cell begins and the last one ends, s. */
  readonly edges: Float64Array;
}

function cellsOf(
  values: ArrayLike<number>,
  rate: number,
  from: number,
  to: number,
  run: PhaseRun,
): Cells | null {
  const { times, phases } = run;
  const timeAt = (phase: number, hint: number): number => {
    let i = hint;
    while (i < phases.length - 2 && phases[i + 1]! < phase) i++;
    const part = (phase - phases[i]!) / (phases[i + 1]! - phases[i]!);
    return times[i]! + part * (times[i + 1]! - times[i]!);
  };
  const phaseAt = (time: number): number => {
    if (time <= times[0]!) return phases[0]!;
    if (time >= times.at(-1)!) return phases.at(-1)!;
    let i = 0;
    while (i < times.length - 2 && times[i + 1]! < time) i++;
    return phases[i]! + ((time - times[i]!) / (times[i + 1]! - times[i]!)) * (phases[i + 1]! - phases[i]!);
  };
  const first = Math.ceil(phaseAt(from / rate) * pointsPerBeat - 1e-9);
  const last = Math.floor(phaseAt(to / rate) * pointsPerBeat + 1e-9);
  if (last - first < 1) return null;
  const level = values[from]!;
  const sums = runningIntegral(values, from, to, level);
  const integralTo = (time: number): number => {
    const place = Math.min(to - from, Math.max(0, time * rate - from));
    const whole = Math.min(to - from - 1, Math.floor(place));
    const part = place - whole;
    const a = values[from + whole]! - level;
    const b = values[from + whole + 1]! - level;
    return sums[whole]! + part * (a + (part * (b - a)) / 2);
  };
  const means = new Float64Array(last - first);
  const edges = new Float64Array(last - first + 1);
  let earlier = timeAt(first / pointsPerBeat, 0);
  edges[0] = earlier;
  let sum = integralTo(earlier);
  let hint = 0;
  for (let cell = first; cell < last; cell++) {
    const end = (cell + 1) / pointsPerBeat;
    while (hint < phases.length - 2 && phases[hint + 1]! < end) hint++;
    const time = timeAt(end, Math.max(0, hint - 1));
    const next = integralTo(time);
    means[cell - first] = (next - sum) / ((time - earlier) * rate);
    sum = next;
    earlier = time;
    edges[cell - first + 1] = time;
  }
  return { first, means, edges };
}

/**
 * Takes the centred one-beat moving mean away. In the half beat at either end, where it cannot be had, the straight
 * line through its last two values a beat apart stands for it. Exactly zero gain is lost at harmonics.
 */
function withoutMovingMean(cells: Cells): Cells {
  const half = pointsPerBeat / 2;
  const { means } = cells;
  const length = means.length - 2 * half;
  if (length < 1) return { ...cells, means: new Float64Array(0) };
  const level = new Float64Array(means.length);
  for (let i = 0; i < length; i++) {
    let sum = (means[i]! + means[i + 2 * half]!) / 2;
    for (let k = 1; k < 2 * half; k++) sum += means[i + k]!;
    level[i + half] = sum / pointsPerBeat;
  }
  const first = half;
  const last = half + length - 1;
  const apart = Math.min(pointsPerBeat, last - first);
  const early = apart > 0 ? (level[first + apart]! - level[first]!) / apart : 0;
  const late = apart > 0 ? (level[last]! - level[last - apart]!) / apart : 0;
  for (let i = 1; i <= half; i++) {
    level[first - i] = level[first]! - i * early;
    if (last + i < means.length) level[last + i] = level[last]! + i * late;
  }
  return { ...cells, means: means.map((x, i) => x - level[i]!) };
}

/**
 * Lays whole, gap-free beats end to end on a grid of `pointsPerBeat` points each.
 *
 * Beats touched by a missing sample, and intervals that cannot be one heart beat, are left out; nothing is
 * bridged. Each point is the mean of the straight-line interpolated signal over its cell, so any sample
 * rate from 25/s works without a filter before it.
 *
 * @param values samples, NaN where missing; values beyond ±1e60 count as missing
 * @param beats reference times in seconds from the first sample, any order; may lie outside the window
 * @returns `null` if no whole beat is left
 */
export function layBeats(values: ArrayLike<number>, rate: number, beats: readonly number[]): BeatGrid | null {
  const { runs, interval, scatter } = phaseRuns(beats);
  const pieces: Cells[] = [];
  for (let from = 0; from < values.length; from++) {
    if (!(Math.abs(values[from]!) < 1e60)) continue;
    let to = from;
    while (to + 1 < values.length && Math.abs(values[to + 1]!) < 1e60) to++;
    for (const run of to > from ? runs : []) {
      const cells = cellsOf(values, rate, from, to, run);
      if (cells !== null) pieces.push(withoutMovingMean(cells));
    }
    from = to;
  }
  const wholeBeats = (piece: Cells, offset: number): { skip: number; count: number } => {
    const skip = (((offset - piece.first) % pointsPerBeat) + pointsPerBeat) % pointsPerBeat;
    return { skip, count: Math.max(0, Math.floor((piece.means.length - skip) / pointsPerBeat)) };
  };
  let offset = 0;
  let beatsKept = 0;
  for (let tried = 0; tried < pointsPerBeat; tried++) {
    const total = pieces.reduce((sum, piece) => sum + wholeBeats(piece, tried).count, 0);
    if (total > beatsKept) {
      beatsKept = total;
      offset = tried;
    }
  }
  if (beatsKept === 0) return null;
  const laid = new Float64Array(beatsKept * pointsPerBeat);
  const middles = new Float64Array(beatsKept);
  let seconds = 0;
  let at = 0;
  for (const piece of pieces) {
    const { skip, count } = wholeBeats(piece, offset);
    if (count === 0) continue;
    laid.set(piece.means.subarray(skip, skip + count * pointsPerBeat), at);
    for (let b = 0; b < count; b++) {
      middles[at / pointsPerBeat + b] = piece.edges[skip + (b + 0.5) * pointsPerBeat]!;
    }
    seconds += piece.edges[skip + count * pointsPerBeat]! - piece.edges[skip]!;
    at += count * pointsPerBeat;
  }
  return {
    beats: beatsKept,
    values: laid,
    middles,
    seconds,
    firstPhase: (offset + 0.5) / pointsPerBeat,
    interval,
    scatter,
    samplesPerBeat: interval * rate,
  };
}
