/** The first pass: from the stamps of a table to the clock its rows follow, and what is wrong with it. */

import type { ClockColumn } from "../clock-column.js";
import { fitClock, type RowClock } from "../clock-fit.js";
import { createStampParser } from "../clock-stamp.js";
import { type ClockShape, clockHabit, createClockTrack } from "../clock-track.js";
import { createCellParser } from "./cell-number.js";
import type { RowScanner } from "./scan-rows.js";
import { type Table, walkRows } from "./table-rows.js";
import { problem, type Tally, times } from "./tally.js";
import { textOf } from "./text.js";

export interface TableClock {
  readonly clock: RowClock;
  /** Numbers of rows to leave out, ascending. */
  readonly repeats: readonly number[];
  readonly startedAt: string | null;
}

/** Rows looked at for the clock's habit. */
const habitRows = 4096;

/** `null`, with a fatal problem, if the stamps say nothing of time. */
export async function readClock(
  table: Table,
  column: ClockColumn,
  name: string,
  tally: Tally,
): Promise<TableClock | null> {
  const stamps = createStampReader(table, column);
  const early: { stamp: number; printed: number; line: number }[] = [];
  const rows = walkRows(table);
  let track: ReturnType<typeof createClockTrack> | null = null;
  let failed = false;

  function begin(): void {
    const finest = early.reduce(
      (least, { stamp, printed }) => (Number.isNaN(stamp) ? least : Math.min(least, printed)),
      1,
    );
    const habit = clockHabit(
      early.map(({ stamp }) => stamp),
      finest,
    );
    if (habit === null) failed = true;
    else {
      track = createClockTrack(habit);
      for (const { stamp, printed, line } of early) track.next(stamp, printed, line);
    }
    habitKept = habit;
  }
  let habitKept: ReturnType<typeof clockHabit> = null;

  do {
    while (!failed && rows.next()) {
      const { line } = rows.cells;
      const stamp = rows.empty ? Number.NaN : stamps.read(rows.cells);
      if (track !== null) (track as ReturnType<typeof createClockTrack>).next(stamp, stamps.printed, line);
      else {
        early.push({ stamp, printed: stamps.printed, line });
        if (early.length === habitRows) begin();
      }
    }
  } while (!failed && (await rows.more()));
  if (track === null && !failed) begin();
  const where = `${table.source.name}, column "${name}"`;
  if (track === null || habitKept === null) {
    const found = early.length < 2 ? `${early.length} rows` : "stamps that don't move forward";
    tally.report(
      "clock",
      1,
      problem(
        "rate-unknown",
        "fatal",
        where,
        "times that tell the sampling rate (or state it: --rate)",
        found,
      ),
    );
    return null;
  }
  const shape = (track as ReturnType<typeof createClockTrack>).finish();
  const clock = fitClock(shape, habitKept);
  if (!(clock.rate >= 1e-4 && clock.rate <= 1e6)) {
    const found = `${clock.rate} per second`;
    tally.report(
      "clock",
      1,
      problem("rate-unknown", "fatal", where, "a sampling rate of 0.0001 to 1000000 per second", found),
    );
    return null;
  }
  tell(table, shape, clock, stamps.midnights, where, tally);
  return { clock, repeats: shape.repeats, startedAt: stamps.startedAt };
}

function createStampReader(table: Table, { column, form, scale, epoch }: ClockColumn) {
  const numbers = createCellParser(table.dialect.decimal);
  const texts = form === "number" ? null : createStampParser(form);
  const seconds = scale ?? 1;
  let first = Number.NaN;
  const reader = {
    printed: 1,
    get midnights() {
      return texts?.midnights ?? 0;
    },
    get startedAt() {
      if (texts !== null) return texts.startedAt;
      return epoch && Number.isFinite(first)
        ? new Date(Math.round(first * seconds * 1000)).toISOString()
        : null;
    },
    read({ bytes, starts, ends, count }: RowScanner): number {
      if (column >= count) return Number.NaN;
      if (texts !== null) {
        const stamp =
          ends[column]! - starts[column]! > 60
            ? Number.NaN
            : texts.parse(textOf(bytes, starts[column]!, ends[column]!));
        reader.printed = texts.printed;
        return stamp;
      }
      if (numbers.parse(bytes, starts[column]!, ends[column]!) !== "value") return Number.NaN;
      if (Number.isNaN(first)) first = numbers.value;
      reader.printed = numbers.printed * seconds;
      // Differences first: a count since 1970 has no digits to spare.
      return (numbers.value - first) * seconds;
    },
  };
  return reader;
}

function tell(
  table: Table,
  shape: ClockShape,
  clock: RowClock,
  midnights: number,
  where: string,
  tally: Tally,
): void {
  const { faults } = shape;
  const file = table.source.name;
  const note = (code: string, weight: "note" | "lost-part", place: string, expected: string, found: string) =>
    tally.report(code, 1, problem(code, weight, place, expected, found));
  const seen = (
    fault: { count: number; line: number },
    code: string,
    weight: "note" | "lost-part",
    expected: string,
    what: string,
  ) => {
    if (fault.count > 0)
      note(code, weight, `${file}, line ${fault.line}`, expected, `${what}, ${times(fault.count)}`);
  };
  if (!clock.even) {
    const found = `a clock up to ${(1000 * clock.farthest).toPrecision(3)} ms off one rate (largest step ${(1000 * faults.largestStep.count).toPrecision(3)} ms, line ${faults.largestStep.line}); values put on an even grid of ${clock.rate} per second along it`;
    note("clock-uneven", "note", where, "even times", found);
  }
  const gaps = shape.pieces
    .slice(1)
    .filter(
      (piece) => !(clock.joined && piece.small) && (clock.cutRow === null || piece.firstRow < clock.cutRow),
    );
  const [gap] = gaps;
  if (gap !== undefined) {
    const total = gaps.reduce((sum, { missing }) => sum + missing, 0);
    const found =
      gaps.length === 1
        ? `${short(gap.missing)} missing`
        : `${gaps.length} gaps, ${short(total)} missing, the first ${short(gap.missing)}`;
    note("gap", "note", `${file}, line ${gap.line}`, "rows without gaps", found);
  }
  if (clock.between) {
    note(
      "gap-off-grid",
      "note",
      where,
      "gaps of whole intervals",
      "one that is not; values after it were read between rows",
    );
  }
  if (clock.cutRow !== null) {
    const piece = shape.pieces.find(({ firstRow }) => firstRow === clock.cutRow);
    const found = `${short(piece?.missing ?? 0)} missing; rows from here on were left out`;
    note("gap-too-long", "lost-part", `${file}, line ${piece?.line ?? 0}`, "gaps of days at most", found);
  }
  if (clock.joined)
    note("clock-holes", "note", where, "rows without gaps", "many small holes, taken as an uneven clock");
  seen(
    faults.missing,
    "time-missing",
    "note",
    "a time in each row",
    "none that can be read, row taken in its order",
  );
  seen(faults.backwards, "time-backwards", "note", "rising times", "a time before the one above, not used");
  seen(faults.outlier, "time-outlier", "note", "rising times", "a time far from its neighbours, not used");
  seen(
    faults.doubled,
    "time-doubled",
    "note",
    "rising times",
    "the time of the row above again, row left out",
  );
  const restart = "a clock that fell back and went on; how long the pause was is not known";
  seen(faults.restarted, "clock-restarted", "lost-part", "rising times", restart);
  if (midnights > 0)
    note("midnight-passed", "note", where, "times of one day", `midnight passed, ${times(midnights)}`);
}

function short(time: number): string {
  if (time >= 120) return `${Number((time / 60).toPrecision(3))} min`;
  return time >= 1 ? `${Number(time.toPrecision(4))} s` : `${Number((1000 * time).toPrecision(3))} ms`;
}
