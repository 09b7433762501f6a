/** The first pass: from the stamps of a table to the clock its rows follow. */
import type { ClockColumn } from "../clock-column.js";
import { fitClock, type RowClock } from "../clock-fit.js";
import {
  type ClockHabit,
  type ClockShape,
  type ClockTrack,
  clockHabit,
  createClockTrack,
} from "../clock-track.js";
import { tellClock } from "./clock-problems.js";
import { createStampReader } from "./stamp-column.js";
import { type Table, walkRows } from "./table-rows.js";
import { problem, type Tally, times } from "./tally.js";

export interface TableClock {
  readonly clock: RowClock;
  /** Numbers of rows to leave out, ascending. */
  readonly repeats: readonly number[];
  readonly startedAt: string | null;
}

/** Rows looked at for the clock's habit. */
const habitRows = 4096;
const slowest = 1e-4;
const fastest = 1e6;

/** `null`, with a fatal problem, if the stamps say nothing of time. */
export async function readClock(
  table: Table,
  column: ClockColumn,
  name: string,
  tally: Tally,
): Promise<TableClock | null> {
  const stamps = createStampReader(table.dialect.decimal, column);
  const rows = walkRows(table);
  const track = createPatientTrack();
  do {
    while (rows.next()) {
      const stamp = rows.empty ? Number.NaN : stamps.read(rows.cells);
      track.next(stamp, stamps.printed, rows.cells.line);
    }
  } while (await rows.more());

  const where = `${table.source.name}, column "${name}"`;
  const seen = track.finish();
  const clock = seen === null ? null : fitClock(seen.shape, seen.habit);
  if (seen === null || clock === null || !(clock.rate >= slowest && clock.rate <= fastest)) {
    const expected = "times that tell the sampling rate; or state it: --rate SAMPLES_PER_SECOND";
    const found = clock === null ? "times that don't move forward" : `${clock.rate} rows per second`;
    tally.report("clock", 1, problem("rate-unknown", "fatal", where, expected, found));
    return null;
  }
  const { wraps, turn } = stamps.counter;
  if (wraps > 0) {
    const found = `a counter of ${Math.log2(turn ?? 1)} bits that ran over at ${turn}, ${times(wraps)}; counted on`;
    tally.report("wrapped", 1, problem("clock-wrapped", "note", where, "rising times", found));
  }
  tellClock(table.source.name, seen.shape, clock, stamps.midnights, where, tally);
  return { clock, repeats: seen.shape.repeats, startedAt: stamps.startedAt };
}

/** A track that waits for enough rows to know the clock's habit. */
function createPatientTrack() {
  const early: { stamp: number; printed: number; line: number }[] = [];
  let track: ClockTrack | null = null;
  let habit: ClockHabit | null = null;
  let begun = false;

  function begin(): void {
    begun = true;
    const finest = early.reduce(
      (least, { stamp, printed }) => (Number.isNaN(stamp) ? least : Math.min(least, printed)),
      1,
    );
    habit = clockHabit(
      early.map(({ stamp }) => stamp),
      finest,
    );
    if (habit === null) return;
    track = createClockTrack(habit);
    for (const { stamp, printed, line } of early) track.next(stamp, printed, line);
  }

  return {
    next(stamp: number, printed: number, line: number): void {
      if (track !== null) track.next(stamp, printed, line);
      else if (!begun) {
        early.push({ stamp, printed, line });
        if (early.length === habitRows) begin();
      }
    },
    finish(): { shape: ClockShape; habit: ClockHabit } | null {
      if (!begun) begin();
      return track === null || habit === null ? null : { shape: track.finish(), habit };
    },
  };
}
