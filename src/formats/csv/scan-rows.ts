/**
 * Cuts text into rows and cells without making strings. Any of LF, CR LF and CR ends a row; quotes as in
 * RFC 4180 sections 2.5 to 2.7, with spaces allowed around a quoted cell. Knows nothing of what cells mean.
 *
 * A quote that is never closed, or is followed by more text, is an ordinary character of that row: one
 * stray quote must not swallow the rows after it.
 */

/** What lies between cells; `space` is any run of blanks and tabs. */
export type Delimiter = "," | ";" | "\t" | "|" | "space";

/** One row as places in `bytes`. Overwritten by the next; quoted cells are given without their quotes. */
export interface RowScanner {
  readonly bytes: Uint8Array;
  /** Start and end of cell `i < min(count, most)`. */
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  /** Cells in the row, those beyond `most` included; 0 for an empty line. */
  readonly count: number;
  /** Line the row starts in, from 1. */
  readonly line: number;
  /** Whether the row is all comment: its first character is `#` or `%`. */
  readonly comment: boolean;
  /** Rows thrown away because they exceed `longestRow`, and the line of the first. */
  readonly tooLong: number;
  readonly firstTooLong: number;
  /** Adds bytes; cells of the current row move. */
  feed(chunk: Uint8Array): void;
  /** No more bytes will come; the text after the last line end is a row too. */
  finish(): void;
  /** Moves to the next row; false when more bytes are needed or all rows were seen. */
  next(): boolean;
}

/** Bytes a row may have; a longer one is skipped up to its line end, so memory stays bounded. */
export const longestRow = 1 << 20;

const LF = 10;
const CR = 13;
const QUOTE = 34;
const SPACE = 32;
const TAB = 9;

export function createRowScanner(delimiter: Delimiter, most: number): RowScanner {
  const blank = delimiter === "space";
  const mark = blank ? SPACE : delimiter.charCodeAt(0);
  const other = blank ? TAB : mark;
  let held = new Uint8Array(0);
  let length = 0;
  let at = 0;
  let line = 1;
  let ended = false;
  let skipping = false;
  let afterCr = false;
  let quoted = false;

  const row = {
    bytes: held,
    starts: new Int32Array(most),
    ends: new Int32Array(most),
    count: 0,
    line: 0,
    comment: false,
    tooLong: 0,
    firstTooLong: 0,
    feed(chunk: Uint8Array): void {
      const rest = length - at;
      if (rest + chunk.length > held.length) {
        const larger = new Uint8Array(rest + chunk.length + (held.length === 0 ? 0 : 1 << 17));
        larger.set(held.subarray(at, length));
        held = larger;
        row.bytes = held;
      } else if (at > 0) held.copyWithin(0, at, length);
      held.set(chunk, rest);
      length = rest + chunk.length;
      at = 0;
    },
    finish(): void {
      ended = true;
    },
    next(): boolean {
      for (;;) {
        if (afterCr && at < length) {
          if (held[at] === LF) at++;
          afterCr = false;
        }
        if (at >= length) return false;
        if (skipping) {
          while (at < length && held[at] !== LF && held[at] !== CR) at++;
          if (at >= length) return false;
          skipping = false;
          endLine(at);
          continue;
        }
        let end = cut(true);
        if (end === malformed || (end === incomplete && (ended || length - at > longestRow)))
          end = cut(false);
        if (end !== incomplete && end !== malformed) {
          if (end - at > longestRow) {
            tooLong();
            endLine(end);
            continue;
          }
          row.line = line;
          if (quoted) countLines(end);
          endLine(end);
          return true;
        }
        if (length - at <= longestRow) return false;
        tooLong();
        skipping = true;
      }
    },
  };

  /** Line ends inside quoted cells. */
  function countLines(end: number): void {
    for (let i = at; i < end; i++) if (held[i] === LF || (held[i] === CR && held[i + 1] !== LF)) line++;
  }

  function tooLong(): void {
    row.tooLong++;
    if (row.firstTooLong === 0) row.firstTooLong = line;
  }

  /** Steps over the line end at `end`, if there is one. */
  function endLine(end: number): void {
    at = end;
    if (at >= length) return;
    line++;
    afterCr = held[at] === CR;
    at++;
  }

  /** Fills `starts`, `ends`, `count` for the row at `at`; returns where its line end is. */
  function cut(quotes: boolean): number {
    const bytes = held;
    const starts = row.starts;
    const ends = row.ends;
    let p = at;
    let count = 0;
    quoted = false;
    row.comment = bytes[p] === 35 || bytes[p] === 37;
    if (blank || quotes) while (p < length && (bytes[p] === SPACE || (bytes[p] === TAB && mark !== TAB))) p++;
    if (!blank && bytes[p] !== QUOTE) p = at;
    if (p < length && (bytes[p] === LF || bytes[p] === CR)) {
      row.count = 0;
      return p;
    }
    if (p >= length && ended) {
      row.count = 0;
      return p;
    }
    for (;;) {
      if (quotes && bytes[p] === QUOTE && !row.comment) {
        quoted = true;
        let close = p + 1;
        for (; ; close++) {
          while (close < length && bytes[close] !== QUOTE) close++;
          if (close >= length) return incomplete;
          if (close + 1 >= length && !ended) return incomplete;
          if (close + 1 < length && bytes[close + 1] === QUOTE) close++;
          else break;
        }
        if (count < most) {
          starts[count] = p + 1;
          ends[count] = close;
        }
        count++;
        p = close + 1;
        if (!blank) while (p < length && (bytes[p] === SPACE || (bytes[p] === TAB && mark !== TAB))) p++;
        if (p < length && bytes[p] !== mark && bytes[p] !== other && bytes[p] !== LF && bytes[p] !== CR)
          return malformed;
      } else {
        const from = p;
        let byte = -1;
        while (p < length) {
          byte = bytes[p]!;
          if (byte === mark || byte === LF || byte === CR || byte === other) break;
          p++;
        }
        if (count < most) {
          starts[count] = from;
          ends[count] = p;
        }
        count++;
      }
      if (p >= length) {
        row.count = count;
        return ended ? p : incomplete;
      }
      if (bytes[p] === LF || bytes[p] === CR) {
        row.count = count;
        return p;
      }
      p++;
      if (blank) {
        while (p < length && (bytes[p] === SPACE || bytes[p] === TAB)) p++;
        if (p >= length && !ended) return incomplete;
        if (p >= length || bytes[p] === LF || bytes[p] === CR) {
          row.count = count;
          return p;
        }
      } else if (quotes) {
        let q = p;
        while (q < length && (bytes[q] === SPACE || (bytes[q] === TAB && mark !== TAB))) q++;
        if (bytes[q] === QUOTE) p = q;
      }
    }
  }
  return row;
}

const incomplete = -1;
const malformed = -2;
