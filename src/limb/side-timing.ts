/** How much later the suspect side's pulse comes, and how alike the two waves are. */
import type { Beat, Estimate, Millis, Seconds } from "../model/index.js";
import { pairBeats } from "../pulse/agreement.js";
import { sideDelay } from "../pulse/side-delay.js";
import { beatMedian, estimate, median } from "./beat-median.js";
import type { BeatShape, Reading } from "./reading.js";

/** Feet further apart than this do not belong to one heart beat, seconds; finger to toe is 0.10. */
const furthest = 0.25 as Seconds;

/** Suspect foot minus sound foot, beat by beat, with the beats paired closest first; for one clock. */
export function delayByFeet(sound: Reading, suspect: Reading): Estimate<Millis> | null {
  const one = feet(sound.beats);
  const other = feet(suspect.beats);
  const { matched } = pairBeats(one, other, furthest);
  const middle = beatMedian(matched.map(([a, b]) => 1000 * (other[b]! - one[a]!)));
  return middle === null ? null : estimate(middle, (x) => x as Millis);
}

/** From each side's own time after its R waves; the sides need not be recorded together. */
export function delayByEcg(sound: Reading, suspect: Reading): Estimate<Millis> | null {
  const one = sound.arrival;
  const other = suspect.arrival;
  if (one === null || other === null) return null;
  const value = other.value - one.value;
  const half = Math.hypot((one.high - one.low) / 2, (other.high - other.low) / 2);
  return {
    value: value as Millis,
    low: (value - half) as Millis,
    high: (value + half) as Millis,
    count: Math.min(one.count, other.count),
  };
}

const inMillis = ({ value, low, high, count }: Estimate<Seconds>): Estimate<Millis> => ({
  value: (1000 * value) as Millis,
  low: (1000 * low) as Millis,
  high: (1000 * high) as Millis,
  count,
});

/** By laying the averaged beats of both traces over each other; `null` without traces or on two clocks. */
export function delayByTraces(sound: Reading, suspect: Reading): Estimate<Millis> | null {
  if (sound.trace === undefined || suspect.trace === undefined) return null;
  const { byShape } = sideDelay(
    { ...sound.trace, feet: feet(sound.beats) },
    { ...suspect.trace, feet: feet(suspect.beats) },
  );
  return byShape === null ? null : inMillis(byShape);
}

/** Largest shift searched when two usual beats are laid over each other, seconds. */
const widestShift = 0.08;

/**
 * The delay by shape where there are no two traces on one clock: the delay by foot, plus the shift that lays the suspect's usual beat best over the
 * sound side's once their feet coincide (largest correlation, to a millisecond). Equal shapes add
 * nothing; a rounded wave, as behind a narrowing, adds what its late top is worth.
 *
 * @returns `null` without both shapes
 */
export function delayByShape(byFoot: Millis, sound: Reading, suspect: Reading): Millis | null {
  if (sound.shape === null || suspect.shape === null) return null;
  const one = sound.shape;
  const other = suspect.shape;
  const end =
    Math.min(one.step * (one.values.length - 1), other.step * (other.values.length - 1)) - widestShift;
  const points = 64;
  const from = widestShift;
  const step = (end - from) / (points - 1);
  if (!(step > 0)) return null;
  const grid = (shape: BeatShape, shift: number) =>
    Array.from({ length: points }, (_, i) => valueAt(shape, from + i * step + shift));
  const reference = grid(one, 0);
  let best = { shift: 0, score: Number.NEGATIVE_INFINITY };
  for (let millis = -1000 * widestShift; millis <= 1000 * widestShift; millis++) {
    const score = correlation(reference, grid(other, millis / 1000));
    if (score > best.score) best = { shift: millis, score };
  }
  return (byFoot + best.shift) as Millis;
}

const endOf = (shape: BeatShape) => shape.from + shape.step * (shape.values.length - 1);

/** Value of a shape at a time after its foot, straight between samples. */
function valueAt(shape: BeatShape, time: number): number {
  const at = Math.min(Math.max((time - shape.from) / shape.step, 0), shape.values.length - 1);
  const left = Math.floor(at);
  const right = Math.min(left + 1, shape.values.length - 1);
  return shape.values[left]! + (at - left) * (shape.values[right]! - shape.values[left]!);
}

/** Correlation of two series of one length, −1 to 1; 0 when one of them is flat. */
function correlation(a: readonly number[], b: readonly number[]): number {
  const n = a.length;
  const meanA = a.reduce((sum, x) => sum + x, 0) / n;
  const meanB = b.reduce((sum, x) => sum + x, 0) / n;
  let dot = 0;
  let sizeA = 0;
  let sizeB = 0;
  for (let i = 0; i < n; i++) {
    dot += (a[i]! - meanA) * (b[i]! - meanB);
    sizeA += (a[i]! - meanA) ** 2;
    sizeB += (b[i]! - meanB) ** 2;
  }
  const sizes = Math.sqrt(sizeA * sizeB);
  return sizes > 0 ? dot / sizes : 0;
}

/** Share of the beats of both sides that have no partner, 0 to 100 %; `null` with fewer than 5 beats in common time. */
export function unmatchedShare(sound: Reading, suspect: Reading): number | null {
  const from = Math.max(sound.from, suspect.from);
  const to = Math.min(sound.to, suspect.to);
  // A beat at the very edge may have its partner beyond it.
  const inside = (beats: readonly Beat[]) =>
    beats
      .filter((beat) => beat.peak >= from + furthest && beat.peak <= to - furthest)
      .map((beat) => beat.peak);
  const one = inside(sound.beats);
  const other = inside(suspect.beats);
  if (one.length < 5 || other.length < 5) return null;
  const usual = median(pairBeats(one, other, furthest).matched.map(([a, b]) => other[b]! - one[a]!));
  const all = sound.beats.map((beat) => beat.peak as number);
  const allOther = suspect.beats.map((beat) => beat.peak as number);
  const lag = (Number.isFinite(usual) ? usual : 0) as Seconds;
  const missed = pairBeats(one, allOther, 0.15 as Seconds, lag).missed.length;
  const extra = pairBeats(all, other, 0.15 as Seconds, lag).extra.length;
  return (100 * (missed + extra)) / (one.length + other.length);
}

function feet(beats: readonly Beat[]): number[] {
  return beats.flatMap((beat) => (beat.foot === null ? [] : [beat.foot]));
}

/**
 * 1 minus the correlation of the two usual beats, each stretched to one beat length:
 * 0 equal, 1 unrelated, 2 opposite. Size and delay play no part.
 */
export function shapeDistance(sound: BeatShape, suspect: BeatShape): number {
  const points = 64;
  const stretched = (shape: BeatShape) =>
    Array.from({ length: points }, (_, i) =>
      valueAt(shape, shape.from + (i / (points - 1)) * (endOf(shape) - shape.from)),
    );
  return 1 - correlation(stretched(sound), stretched(suspect));
}
