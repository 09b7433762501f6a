/** All records of a folder taken together. */
import { type BeatScore, type Rates, ratesOf } from "./score-beats.js";
import { addConfusion, type Confusion, emptyConfusion } from "./score-grades.js";
import type { RecordScore } from "./score-record.js";

/** Milliseconds, found minus marked; `null` without hits. */
export interface Timing {
  readonly median: number;
  readonly low: number;
  readonly high: number;
}

/** Median with the 5th and 95th percentile (nearest rank). */
export function timingOf(errors: readonly number[]): Timing | null {
  if (errors.length === 0) return null;
  const sorted = errors.toSorted((a, b) => a - b);
  const at = (q: number) =>
    1000 * (sorted[Math.min(sorted.length - 1, Math.max(0, Math.ceil(q * sorted.length) - 1))] as number);
  return { median: at(0.5), low: at(0.05), high: at(0.95) };
}

export interface BeatFigures extends Rates {
  readonly hits: number;
  readonly missed: number;
  readonly extra: number;
  readonly timing: Timing | null;
}

export function figuresOf(score: BeatScore): BeatFigures {
  const { hits, missed, extra, errors } = score;
  return { hits, missed, extra, ...ratesOf(score), timing: timingOf(errors) };
}

export interface Pooled {
  readonly beats: BeatFigures | null;
  readonly grades: Confusion | null;
}

export function poolScores(scores: readonly RecordScore[]): Pooled {
  const beats = scores.flatMap((score) => score.beats ?? []);
  const graded = scores.flatMap((score) => score.grades ?? []);
  const sum = (pick: (score: BeatScore) => number) => beats.reduce((total, score) => total + pick(score), 0);
  const grades = emptyConfusion();
  for (const table of graded) addConfusion(grades, table);
  return {
    beats:
      beats.length === 0
        ? null
        : figuresOf({
            hits: sum((score) => score.hits),
            missed: sum((score) => score.missed),
            extra: sum((score) => score.extra),
            errors: beats.flatMap((score) => score.errors),
          }),
    grades: graded.length === 0 ? null : grades,
  };
}
