/**
 * Columns that are no signal but remarks on one: text that names events, and 0/1 columns that mark beats.
 * They become annotations at the time of their row.
 */
import { type Annotation, excerpt, seconds } from "../../model/index.js";
import type { GridPiece, RowClock } from "../clock-fit.js";
import { textOf } from "../file-text.js";
import { createCellParser } from "./cell-number.js";
import type { RowScanner } from "./scan-rows.js";

export interface MarkColumn {
  readonly column: number;
  readonly kind: "note" | "beat";
  readonly name: string;
}

const noteNames = /^(events?|notes?|markers?|marks?|annotations?|comments?|remarks?|labels?)$/;
const beatNames = /^(beats?|heart beats?|r|r ?peaks?|r ?waves?|peaks?|qrs)$/;
/** Annotations kept; a column with more is no column of remarks. */
export const mostMarks = 200_000;
/** Letters of a cell that are kept. */
const longest = 200;

export interface MarkCandidate {
  readonly name: string;
  readonly cells: readonly string[];
  /** NaN where the cell is no number. */
  readonly values: readonly number[];
}

/** By name and by what the first rows hold: no number for a column of text, nothing but 0 and 1, both, for one of beats. */
export function findMarkColumns(columns: readonly MarkCandidate[]): MarkColumn[] {
  return columns.flatMap(({ name, cells, values }, column): MarkColumn[] => {
    const words = name
      .toLowerCase()
      .replace(/[^a-z]+/g, " ")
      .trim();
    const numbers = values.filter((value) => !Number.isNaN(value));
    if (noteNames.test(words) && numbers.length === 0) return [{ column, kind: "note", name }];
    const ones = numbers.filter((value) => value === 1).length;
    const flags = numbers.every((value) => value === 0 || value === 1);
    // An empty cell may stand for 0, text may not; more ones than not is no mark of a moment.
    const clean = numbers.length === cells.filter((cell) => cell !== "").length;
    const rare = ones > 0 && ones < cells.length / 2;
    return beatNames.test(words) && flags && clean && rare ? [{ column, kind: "beat", name }] : [];
  });
}

export interface MarkCollector {
  /** The next row kept; `null` for one without cells. */
  row(cells: RowScanner | null): void;
  /** In time order. */
  readonly marks: readonly Annotation[];
  /** Those beyond `mostMarks`. */
  readonly left: number;
}

/** An annotation where a text differs from the row above, and where a flag rises. */
export function createMarkCollector(
  columns: readonly MarkColumn[],
  clock: RowClock,
  decimal: "." | ",",
): MarkCollector {
  const parser = createCellParser(decimal);
  const before = columns.map(() => "");
  const marks: Annotation[] = [];
  let number = 0;
  let piece = 0;

  function textIn({ bytes, starts, ends, count }: RowScanner, { column, kind }: MarkColumn): string {
    if (column >= count) return "";
    const from = starts[column]!;
    const read = parser.parse(bytes, from, ends[column]!);
    if (kind === "beat") return read === "value" && parser.value === 1 ? "1" : "";
    if (read === "missing") return "";
    const text = textOf(bytes, from, Math.min(ends[column]!, from + 4 * longest));
    // RFC 4180 section 2.7: a quote inside quotes is written twice.
    return excerpt(text.replaceAll('""', '"'), longest);
  }

  const collector = {
    marks,
    left: 0,
    row(cells: RowScanner | null): void {
      const row = number++;
      for (const [i, column] of columns.entries()) {
        const text = cells === null ? "" : textIn(cells, column);
        const same = text === before[i];
        before[i] = text;
        if (same || text === "") continue;
        while (piece < clock.pieces.length && row >= clock.pieces[piece]!.endRow) piece++;
        const at = clock.pieces[piece];
        if (at === undefined || (clock.cutRow !== null && row >= clock.cutRow)) return;
        if (marks.length >= mostMarks) collector.left++;
        else {
          const time = seconds(placeOf(row, at) / clock.rate);
          const { kind, name } = column;
          marks.push({ time, duration: null, kind, text: kind === "beat" ? excerpt(name) : text });
        }
      }
    },
  };
  return collector;
}

/** Where a row sits on the grid. */
function placeOf(row: number, { shift, knotRow, knotPlace }: GridPiece): number {
  if (shift !== null) return Math.max(0, row + shift);
  let knot = 0;
  let above = knotRow.length - 1;
  while (above - knot > 1) {
    const middle = (knot + above) >> 1;
    if (knotRow[middle]! <= row) knot = middle;
    else above = middle;
  }
  const next = Math.min(knot + 1, knotRow.length - 1);
  const run = knotRow[next]! - knotRow[knot]!;
  const slope = run > 0 ? (knotPlace[next]! - knotPlace[knot]!) / run : 0;
  return Math.max(0, knotPlace[knot]! + (row - knotRow[knot]!) * slope);
}
