/** Stamps of one clock column as seconds, row by row. */
import type { ClockColumn } from "../clock-column.js";
import { createStampParser } from "../clock-stamp.js";
import { type CounterUnwrap, createCounterUnwrap } from "../clock-wrap.js";
import { textOf } from "../file-text.js";
import { createCellParser } from "./cell-number.js";
import type { RowScanner } from "./scan-rows.js";

export interface StampReader {
  /** How finely the last stamp was written, seconds. */
  readonly printed: number;
  /** Times midnight was passed on a clock without date. */
  readonly midnights: number;
  /** A counter that ran over, counted on. */
  readonly counter: Pick<CounterUnwrap, "wraps" | "turn">;
  /** Wall clock of the first stamp, ISO 8601; `null` if it tells no date. */
  readonly startedAt: string | null;
  /** Seconds, from a zero of its own; NaN if the row has no stamp. */
  read(row: RowScanner): number;
}

/** @param decimal the table's decimal sign */
export function createStampReader(
  decimal: "." | ",",
  { column, form, scale, epoch }: ClockColumn,
): StampReader {
  const numbers = createCellParser(decimal);
  const texts = form === "number" ? null : createStampParser(form);
  const seconds = scale ?? 1;
  const counter = createCounterUnwrap();
  let first = Number.NaN;
  const reader = {
    printed: 1,
    counter,
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
      return (counter.next(numbers.value) - first) * seconds;
    },
  };
  return reader;
}
