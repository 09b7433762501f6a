/** How much later the suspect side's pulse comes, and how alike the two waves are. */
import type { Beat, Estimate, Millis, Seconds } from "../model/index.js";
import { pairBeats } from "../pulse/agreement.js";
import { beatMedian, estimate, median } from "./beat-median.js";
import type { BeatShape, Reading } from "./reading.js";

/** Feet further apart than this do not belong to one heart beat, seconds; finger to toe is 0.10. */
const furthest = 0.25 as Seconds;

/** Suspect foot minus sound foot, beat by beat, with the beats paired closest first. */
export function delayOnOneClock(sound: Reading, suspect: Reading): Estimate<Millis> | null {
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

/** How far the suspect's usual beat must be moved to lie on the sound side's; `null` without both shapes. */
export function delayByShape(_sound: Reading, _suspect: Reading): Millis | null {
  return null;
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
    Array.from({ length: points }, (_, i) => {
      const at = (i / (points - 1)) * (shape.values.length - 1);
      const left = Math.floor(at);
      const right = Math.min(left + 1, shape.values.length - 1);
      return shape.values[left]! + (at - left) * (shape.values[right]! - shape.values[left]!);
    });
  const centred = (values: number[]) => {
    const mean = values.reduce((sum, x) => sum + x, 0) / points;
    return values.map((x) => x - mean);
  };
  const a = centred(stretched(sound));
  const b = centred(stretched(suspect));
  const dot = a.reduce((sum, x, i) => sum + x * b[i]!, 0);
  const sizes = Math.sqrt(a.reduce((sum, x) => sum + x * x, 0) * b.reduce((sum, x) => sum + x * x, 0));
  return sizes > 0 ? 1 - dot / sizes : 1;
}
