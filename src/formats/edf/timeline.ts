/**
 * Decides from the time each EDF+D record carries whether it joins the one before, leaves a gap
 * or runs back. One damaged time stamp must not tear the record: a jump that the next record
 * takes back is a fault of the stamp, not of the time.
 */

/** Where a record's samples go. */
export type Joint =
  | { readonly kind: "joined" }
  /** Silence of `length` seconds before this record. `at` is its start in seconds after the first record's start. */
  | { readonly kind: "gap"; readonly at: number; readonly length: number }
  /** It begins before the one before it ends; the samples already given stay. */
  | { readonly kind: "overlap"; readonly at: number }
  /** Its time stamp can't be; it is taken as joined. `stamp` as read, `null` when unreadable. */
  | { readonly kind: "bad-stamp"; readonly stamp: number | null; readonly due: number };

export interface Timeline {
  /** Whether `place` would join this stamp without a look at the next one. */
  joins(stamp: number | null): boolean;
  /**
   * Takes the records in order, from the second on.
   *
   * @param stamp seconds after the first record's start, `null` when unreadable
   * @param next the same of the following record; `null` when unreadable or there is none
   */
  place(stamp: number | null, next: number | null): Joint;
}

/** Stamps are often rounded to a millisecond. */
const rounding = 0.001;
/** A recorder's clock and its sample count drift apart; beyond this the samples move to their stated time. Seconds. */
const drift = 0.1;

/**
 * @param duration seconds per record, above 0
 * @param fastest highest rate among the channels, samples per second: half a sample is no gap
 */
export function createTimeline(duration: number, fastest: number): Timeline {
  const tolerance = Math.max(rounding, 0.5 / fastest) * (1 + 1e-9);
  /** End of the record before, by its own stamp, and by the samples given. */
  let stampedEnd = duration;
  let givenEnd = duration;

  const joined = (stamp: number) => {
    stampedEnd = stamp + duration;
    givenEnd += duration;
  };
  const moved = (stamp: number) => {
    stampedEnd = stamp + duration;
    givenEnd = stamp + duration;
  };

  const joins = (stamp: number | null) =>
    stamp !== null &&
    Math.abs(stamp - stampedEnd) <= tolerance &&
    Math.abs(stamp - givenEnd) <= Math.max(drift, tolerance);

  return {
    joins,
    place(stamp, next) {
      const due = stampedEnd;
      if (stamp === null) {
        joined(due);
        return { kind: "bad-stamp", stamp, due };
      }
      if (joins(stamp)) {
        joined(stamp);
        return { kind: "joined" };
      }
      const step = stamp - due;
      const off = stamp - givenEnd;
      const takenBack = next !== null && next < stamp + duration - tolerance;
      const wentOn = next !== null && Math.abs(next - (due + duration)) <= tolerance;
      if (Math.abs(step) > tolerance && (step > 0 ? takenBack : wentOn)) {
        joined(due);
        return { kind: "bad-stamp", stamp, due };
      }
      const at = Math.max(0, stamp);
      if (off < 0) {
        givenEnd = Math.max(givenEnd, stamp + duration);
        stampedEnd = stamp + duration;
        return { kind: "overlap", at };
      }
      moved(stamp);
      return { kind: "gap", at, length: off };
    },
  };
}
