/** Scores found beats against marked ones: one to one, nearest first, within 150 ms. */

export interface BeatCount {
  readonly hits: number;
  readonly extra: number;
  readonly missed: number;
}

export interface BeatMatch extends BeatCount {
  /** Found minus marked, s, of each hit. */
  readonly errors: readonly number[];
  /** Times of what was found but not marked, and marked but not found. */
  readonly extraTimes: readonly number[];
  readonly missedTimes: readonly number[];
}

type Span = readonly [number, number];

/** @param unreadable spans in which neither hits nor misses count */
export function matchBeats(
  found: readonly number[],
  marked: readonly number[],
  unreadable: readonly Span[] = [],
  tolerance = 0.15,
): BeatMatch {
  const readable = (time: number) => !unreadable.some(([from, to]) => time >= from && time <= to);
  const ours = found.filter(readable);
  const theirs = marked.filter(readable);
  const pairs: [number, number, number][] = [];
  let first = 0;
  for (let i = 0; i < ours.length; i++) {
    while (first < theirs.length && theirs[first]! < ours[i]! - tolerance) first++;
    for (let j = first; j < theirs.length && theirs[j]! <= ours[i]! + tolerance; j++) {
      pairs.push([Math.abs(ours[i]! - theirs[j]!), i, j]);
    }
  }
  pairs.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const usedOurs = new Set<number>();
  const usedTheirs = new Set<number>();
  const errors: number[] = [];
  for (const [, i, j] of pairs) {
    if (usedOurs.has(i) || usedTheirs.has(j)) continue;
    usedOurs.add(i);
    usedTheirs.add(j);
    errors.push(ours[i]! - theirs[j]!);
  }
  return {
    hits: errors.length,
    extra: ours.length - errors.length,
    missed: theirs.length - errors.length,
    errors,
    extraTimes: ours.filter((_, i) => !usedOurs.has(i)),
    missedTimes: theirs.filter((_, j) => !usedTheirs.has(j)),
  };
}

export function addCounts(counts: readonly BeatCount[]): BeatCount {
  const sum = (of: (count: BeatCount) => number) => counts.reduce((total, count) => total + of(count), 0);
  return { hits: sum((c) => c.hits), extra: sum((c) => c.extra), missed: sum((c) => c.missed) };
}

/** Share of marked beats found; 1 where none is marked. */
export const sensitivity = ({ hits, missed }: BeatCount) =>
  hits + missed === 0 ? 1 : hits / (hits + missed);
/** Share of found beats that are marked. */
export const precision = ({ hits, extra }: BeatCount) => (hits + extra === 0 ? 1 : hits / (hits + extra));
export const f1 = ({ hits, extra, missed }: BeatCount) =>
  hits + extra + missed === 0 ? 1 : (2 * hits) / (2 * hits + extra + missed);

/** Mean and standard deviation in ms of errors in s; `null` without errors. */
export function inMillis(errors: readonly number[]): { readonly mean: number; readonly sd: number } | null {
  if (errors.length === 0) return null;
  const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
  const square = errors.reduce((sum, error) => sum + (error - mean) ** 2, 0) / errors.length;
  return { mean: 1000 * mean, sd: 1000 * Math.sqrt(square) };
}
