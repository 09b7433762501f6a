/**
 * How a table is written, from its first bytes: what separates cells, which decimal sign, where the
 * data rows begin. Every way is tried; the one under which most cells are numbers wins.
 */
import { stampForm } from "../clock-stamp.js";
import { type CellParser, createCellParser } from "./cell-number.js";
import { createRowScanner, type Delimiter, type RowScanner } from "./scan-rows.js";
import { textOf } from "./text.js";

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

/**
 * Share of cells read as numbers or times over the rows from the first data row on, times the share of rows with the common
 * count, and a little more where the row before the data has as many cells: that is a header that fits.
 */
function scoreOf(head: Uint8Array, whole: boolean, delimiter: Delimiter, decimal: "." | ","): number {
  const parser = createCellParser(decimal);
  const counts = new Map<number, number>();
  let rows = 0;
  let filled = 0;
  let read = 0;
  let previous = 0;
  let above = 0;
  let headed = 0;
  for (const scan of headRows(head, whole, delimiter)) {
    if (scan.comment || scan.count === 0) continue;
    const seen = countCells(scan, parser);
    if (rows === 0 && !isData(seen)) {
      if (++above > mostAbove) return 0;
      previous = scan.count;
      continue;
    }
    if (rows++ === 0) headed = previous === 0 ? 0 : previous === scan.count ? 1 : -1;
    counts.set(scan.count, (counts.get(scan.count) ?? 0) + 1);
    filled += seen.filled;
    read += seen.read;
    if (rows === mostScored) break;
  }
  if (rows === 0) return 0;
  const [common, often] = [...counts].reduce((a, b) => (b[1] > a[1] ? b : a));
  return (read / Math.max(1, filled)) * (often / rows) + 0.1 * headed + (common > 1 ? 0.05 : 0);
}

function describe(head: Uint8Array, whole: boolean, delimiter: Delimiter, decimal: "." | ","): Dialect {
  const parser = createCellParser(decimal);
  const comments: string[] = [];
  const before: HeadRow[] = [];
  const sample: HeadRow[] = [];
  const counts = new Map<number, number>();
  for (const scan of headRows(head, whole, delimiter)) {
    if (scan.comment) {
      if (sample.length === 0) comments.push(lineOf(scan));
      continue;
    }
    if (scan.count === 0) continue;
    if (sample.length === 0 && !isData(countCells(scan, parser))) {
      before.push({ line: scan.line, cells: cellsOf(scan) });
      if (before.length > 100) before.shift();
      continue;
    }
    counts.set(scan.count, (counts.get(scan.count) ?? 0) + 1);
    sample.push({ line: scan.line, cells: cellsOf(scan) });
    if (sample.length === mostSample) break;
  }
  const columns = [...counts].reduce((a, b) => (b[1] > a[1] ? b : a))[0];
  return { delimiter, decimal, columns, firstLine: sample[0]!.line, comments, before, sample };
}

function lineOf(scan: RowScanner): string {
  const last = Math.min(scan.count, mostColumns) - 1;
  return last < 0 ? "" : textOf(scan.bytes, scan.starts[0]!, scan.ends[last]!).replace(/^\s*[#%]+\s*/, "");
}
