/**
 * Walks the data rows of a table, the same rows on every walk: comments, empty lines, repeated headers and
 * lines of mere text are no rows. In a table of one column an empty line between rows is a missing value.
 *
 *     do while (rows.next()) use(rows.cells); while (await rows.more());
 */

import { type Encoding, textChunks, textOf } from "../file-text.js";
import type { ByteSource } from "../recording.js";
import { createCellParser } from "./cell-number.js";
import type { Dialect } from "./dialect.js";
import { createRowScanner, type RowScanner } from "./scan-rows.js";

export interface Table {
  readonly source: ByteSource;
  readonly from: { readonly encoding: Encoding; readonly mark: number };
  readonly dialect: Dialect;
  /** Columns read. */
  readonly columns: number;
  /** The clock's column; `null` if there is none in use. */
  readonly clock: number | null;
}

export interface RowWalk {
  /** The row `next` moved to. */
  readonly cells: RowScanner;
  /** An empty line that stands for a row without values; `cells` then is a later row. */
  readonly empty: boolean;
  /** Lines of text that were left out, and the first of them. */
  readonly textLines: number;
  readonly firstTextLine: number;
  /** Moves to the next row at hand; false if more bytes are needed. */
  next(): boolean;
  /** Fetches bytes; false when all rows were seen. */
  more(): Promise<boolean>;
}

export function walkRows(table: Table): RowWalk {
  const { dialect, columns, clock } = table;
  const scan = createRowScanner(dialect.delimiter, columns);
  const chunks = textChunks(table.source, table.from);
  const parser = createCellParser(dialect.decimal);
  const header = dialect.before.at(-1)?.cells ?? [];
  let emptyLines = 0;
  let held = false;
  let ended = false;

  const rows = {
    cells: scan,
    empty: false,
    textLines: 0,
    firstTextLine: 0,
    next(): boolean {
      while (held || scan.next()) {
        if (!held) {
          if (scan.line < dialect.firstLine || scan.comment) continue;
          if (scan.count === 0) {
            if (columns === 1) emptyLines++;
            continue;
          }
          if (!isRow()) {
            if (rows.textLines++ === 0) rows.firstTextLine = scan.line;
            continue;
          }
        }
        rows.empty = emptyLines > 0;
        if (rows.empty) emptyLines--;
        held = rows.empty;
        return true;
      }
      return false;
    },
    async more(): Promise<boolean> {
      if (ended) return false;
      const { value, done } = await chunks.next();
      ended = done === true;
      if (value === undefined) scan.finish();
      else scan.feed(value);
      return true;
    },
  };

  /** Whether any cell is a number, or the row keeps a place in an even series by standing where a row stands. */
  function isRow(): boolean {
    const { bytes, starts, ends } = scan;
    const count = Math.min(scan.count, columns);
    const first = clock ?? 0;
    if (first < count && startsAsNumber(bytes, starts[first]!, ends[first]!)) return true;
    let text = 0;
    for (let i = 0; i < count; i++) {
      const kind = parser.parse(bytes, starts[i]!, ends[i]!);
      if (kind === "value") return true;
      if (kind !== "missing") text++;
    }
    if (text === 0) return true;
    if (clock !== null || (scan.count !== columns && columns > 1)) return false;
    for (let i = 0; i < count; i++) if (header[i] !== textOf(bytes, starts[i]!, ends[i]!).trim()) return true;
    return false;
  }
  return rows;
}

function startsAsNumber(bytes: Uint8Array, from: number, to: number): boolean {
  let at = from;
  while (at < to && (bytes[at] === 32 || bytes[at] === 45)) at++;
  return at < to && bytes[at]! >= 48 && bytes[at]! <= 57;
}
