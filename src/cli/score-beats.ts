/** Beats as found against beats as marked. Pure counting; knows nothing of files. */

/** Seconds; nothing is marked inside, so neither hits nor misses count there. */
export interface Unmarked {
  readonly from: number;
  readonly to: number;
}

export interface BeatScore {
  readonly hits: number;
  readonly missed: number;
  readonly extra: number;
  /** Found minus marked for each hit, seconds, in time order. */
  readonly errors: readonly number[];
}

/** The field's usual window round a mark (IEC 60601-2-47:2012, 201.12.1.101.2.3, from memory: 150 ms). */
export const beatTolerance = 0.15;

/**
 * Matches one to one within `tolerance` seconds, as many as can be matched. A beat outside the
 * unmarked spans with no partner counts; inside them it doesn't.
 *
 * @param found, marked seconds, rising
 */
export function scoreBeats(
  found: readonly number[],
  marked: readonly number[],
  unmarked: readonly Unmarked[] = [],
  tolerance: number = beatTolerance,
): BeatScore {
  const counts = (time: number) => !unmarked.some((span) => time >= span.from && time <= span.to);
  const errors: number[] = [];
  let missed = 0;
  let extra = 0;
  let i = 0;
  let j = 0;
  // Earliest with earliest: for windows of one width no other pairing matches more.
  while (i < found.length || j < marked.length) {
    const one = found[i] ?? Number.POSITIVE_INFINITY;
    const other = marked[j] ?? Number.POSITIVE_INFINITY;
    // A hair's breadth for the rounding of decimal marks.
    if (Math.abs(one - other) <= tolerance + 1e-9) {
      errors.push(one - other);
      i++;
      j++;
    } else if (one < other) {
      if (counts(one)) extra++;
      i++;
    } else {
      if (counts(other)) missed++;
      j++;
    }
  }
  return { hits: errors.length, missed, extra, errors };
}

export interface Rates {
  /** Share of the marked beats that were found; `null` with nothing marked. */
  readonly sensitivity: number | null;
  /** Share of the found beats that were marked; `null` with nothing found. */
  readonly precision: number | null;
  readonly f1: number | null;
}

export function ratesOf({ hits, missed, extra }: Pick<BeatScore, "hits" | "missed" | "extra">): Rates {
  const share = (of: number) => (of === 0 ? null : hits / of);
  return {
    sensitivity: share(hits + missed),
    precision: share(hits + extra),
    f1: hits + missed + extra === 0 ? null : (2 * hits) / (2 * hits + missed + extra),
  };
}
