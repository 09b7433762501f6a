/**
 * How a table is written, from its first bytes: what separates cells, which decimal sign, where the
 * data rows begin. Every way is tried; the one under which most cells are numbers wins.
 */
import { stampForm } from "../clock-stamp.js";
import { textOf } from "../file-text.js";
import { type CellParser, createCellParser } from "./cell-number.js";
import { createRowScanner, type Delimiter, type RowScanner } from "./scan-rows.js";

export interface HeadRow {
  readonly line: number;
  readonly cells: readonly string[];
}

export interface Dialect {
  readonly delimiter: Delimiter;
  readonly decimal: "." | ",";
  /** Cells of a data row: the most common count. */
  readonly columns: number;
  /** Line of the first data row. */
  readonly firstLine: number;
  /** Text of the comment lines before the data, without their `#` or `%`. */
  readonly comments: readonly string[];
  /** Rows before the data that are no comments. */
  readonly before: readonly HeadRow[];
  /** The first data rows. */
  readonly sample: readonly HeadRow[];
}

/** Columns read at most; a wider table loses the rest with a problem. */
export const mostColumns = 1024;
/** Data rows looked at. */
const mostSample = 512;
const mostScored = 64;
/** Lines before the data that are no comments; more, and it is no table. */
const mostAbove = 150;

/** Order breaks ties: a rarer separator is better evidence, and a comma between digits is rather a separator. */
const ways: readonly (readonly [Delimiter, "." | ","])[] = [
  ["\t", "."],
  [";", "."],
  ["|", "."],
  [",", "."],
  ["\t", ","],
  [";", ","],
  ["|", ","],
  ["space", "."],
  ["space", ","],
  [",", ","],
];

/**
 * @param head   first bytes of the text as UTF-8
 * @param whole  whether `head` is all there is
 * @returns `null` if no row holds a number under any way
 */
export function sniffDialect(head: Uint8Array, whole: boolean): Dialect | null {
  let best: { score: number; delimiter: Delimiter; decimal: "." | "," } | null = null;
  const has = (char: string) => head.includes(char.charCodeAt(0));
  for (const [delimiter, decimal] of ways) {
    if (decimal === "," && !has(",")) continue;
    // One column has no separator at all: comma, and semicolon with decimal comma, stand for that.
    const oneColumn = delimiter === "," || (delimiter === ";" && decimal === ",");
    if (!oneColumn && !(delimiter === "space" ? has(" ") || has("\t") : has(delimiter))) continue;
    const score = scoreOf(head, whole, delimiter, decimal);
    if (score > 0 && (best === null || score > best.score + 1e-9)) best = { score, delimiter, decimal };
  }
  return best === null ? null : describe(head, whole, best.delimiter, best.decimal);
}

function* headRows(head: Uint8Array, whole: boolean, delimiter: Delimiter): Generator<RowScanner> {
  const scan = createRowScanner(delimiter, mostColumns);
  scan.feed(head);
  if (whole) scan.finish();
  while (scan.next()) yield scan;
}

function cellsOf(scan: RowScanner): string[] {
  const count = Math.min(scan.count, mostColumns);
  return Array.from({ length: count }, (_, i) => textOf(scan.bytes, scan.starts[i]!, scan.ends[i]!).trim());
}

/** Numbers and times among the cells that hold something. */
function countCells(scan: RowScanner, parser: CellParser): { filled: number; read: number } {
  let filled = 0;
  let read = 0;
  for (let i = 0; i < Math.min(scan.count, mostColumns); i++) {
    const kind = parser.parse(scan.bytes, scan.starts[i]!, scan.ends[i]!);
    if (kind === "missing") continue;
    filled++;
    const length = scan.ends[i]! - scan.starts[i]!;
    if (
      kind === "value" ||
      (kind === "bad" &&
        length < 40 &&
        stampForm(textOf(scan.bytes, scan.starts[i]!, scan.ends[i]!)) !== null)
    )
      read++;
  }
  return { filled, read };
}

const isData = ({ filled, read }: { filled: number; read: number }) => read > 0 && 2 * read >= filled;

interface SeenRow {
  readonly count: number;
  readonly filled: number;
  readonly read: number;
}

interface Extent {
  /** Cells of most data rows. */
  readonly columns: number;
  /** Number of the first data row among the rows seen. */
  readonly first: number;
}

/**
 * Data rows are rows of numbers with the most common count of such rows; a line like `Bed;12` above them is none.
 * Rows of nothing but missing values right above the first belong to the data too.
 */
function extentOf(rows: readonly SeenRow[]): Extent | null {
  const counts = new Map<number, number>();
  for (const row of rows) if (isData(row)) counts.set(row.count, (counts.get(row.count) ?? 0) + 1);
  if (counts.size === 0) return null;
  const columns = [...counts].reduce((a, b) => (b[1] > a[1] ? b : a))[0];
  let first = rows.findIndex((row) => isData(row) && row.count === columns);
  // `Rate;250` above the header looks like half a row of data.
  const header = rows
    .slice(0, mostAbove)
    .findLastIndex(({ read, filled, count }) => read === 0 && filled === columns && count === columns);
  if (header > first && rows.slice(first, header).every(({ read, filled }) => read < filled)) {
    const below = rows.findIndex((row, i) => i > header && isData(row) && row.count === columns);
    if (below > 0) first = below;
  }
  while (first > 0 && rows[first - 1]!.filled === 0 && rows[first - 1]!.count === columns) first--;
  return { columns, first };
}

/**
 * Share of cells read as numbers or times over the data rows, times the share of rows with the common count,
 * and a little more where the row above them has as many cells: that is a header that fits.
 */
function scoreOf(head: Uint8Array, whole: boolean, delimiter: Delimiter, decimal: "." | ","): number {
  const parser = createCellParser(decimal);
  const seen: SeenRow[] = [];
  let data = 0;
  for (const scan of headRows(head, whole, delimiter)) {
    if (scan.comment || scan.count === 0) continue;
    const row = { count: scan.count, ...countCells(scan, parser) };
    seen.push(row);
    if (isData(row) && ++data === mostScored) break;
    if (seen.length - data > mostAbove) break;
  }
  const extent = extentOf(seen);
  if (extent === null) return 0;
  const rows = seen.slice(extent.first);
  const above = seen[extent.first - 1];
  const headed = above === undefined ? 0 : above.count === extent.columns ? 1 : -1;
  let filled = 0;
  let read = 0;
  for (const row of rows) {
    filled += row.filled;
    read += row.read;
  }
  const alike = rows.filter(({ count }) => count === extent.columns).length / rows.length;
  return (read / Math.max(1, filled)) * alike + 0.1 * headed + (extent.columns > 1 ? 0.05 : 0);
}

function describe(
  head: Uint8Array,
  whole: boolean,
  delimiter: Delimiter,
  decimal: "." | ",",
): Dialect | null {
  const parser = createCellParser(decimal);
  const comments: { line: number; text: string }[] = [];
  const rows: (SeenRow & HeadRow)[] = [];
  for (const scan of headRows(head, whole, delimiter)) {
    if (scan.comment) comments.push({ line: scan.line, text: lineOf(scan) });
    else if (scan.count > 0) {
      rows.push({ line: scan.line, cells: cellsOf(scan), count: scan.count, ...countCells(scan, parser) });
    }
    if (rows.length === mostSample) break;
  }
  const extent = extentOf(rows);
  if (extent === null) return null;
  const firstLine = rows[extent.first]!.line;
  return {
    delimiter,
    decimal,
    columns: extent.columns,
    firstLine,
    comments: comments.filter(({ line }) => line < firstLine).map(({ text }) => text),
    before: rows.slice(0, extent.first),
    sample: rows.slice(extent.first),
  };
}

function lineOf(scan: RowScanner): string {
  const last = Math.min(scan.count, mostColumns) - 1;
  return last < 0 ? "" : textOf(scan.bytes, scan.starts[0]!, scan.ends[last]!).replace(/^\s*[#%]+\s*/, "");
}
