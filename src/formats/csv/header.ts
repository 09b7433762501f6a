/**
 * What the lines before the data say: column names, units, and the sampling rate if it is written there.
 */
import { ucumUnit } from "../ucum-unit.js";
import type { Dialect } from "./dialect.js";

export interface ColumnName {
  /** As written, trimmed, without the unit in brackets; `column 3` where the header says nothing. */
  readonly name: string;
  readonly unit: string;
}

export interface Header {
  readonly names: readonly ColumnName[];
  /** Whether names were written at all. */
  readonly named: boolean;
  /** Samples per second as a comment or a column name states it, and the words that do; else `null`. */
  readonly rate: { readonly value: number; readonly words: string } | null;
}

/** Cells of a row of units below the names; anything else there is a name. */
const unitWord =
  /^(|[([].{0,12}[)\]]|[num\u00b5\u03bc]?[sva]|(milli)?seconds?|sec|hh:mm:ss[.a-z]*|min|%|k?hz|bpm|[{}a-z0-9]{0,6}\/min|mm ?\[?hg\]?|k?pa|counts?|adc|a\.?u\.?|n\/?a|-|°?c)$/i;

export function readHeader(dialect: Dialect): Header {
  const count = dialect.columns;
  const last = dialect.before.at(-1);
  const second = dialect.before.at(-2);
  let cells: readonly string[] = [];
  let units: readonly string[] = [];
  if (last !== undefined && fits(last.cells, count)) {
    cells = last.cells;
    if (
      second !== undefined &&
      fits(second.cells, count) &&
      cells.every((cell) => unitWord.test(cell)) &&
      cells.some((cell) => cell !== "")
    ) {
      units = cells;
      cells = second.cells;
    }
  } else cells = namesInComments(dialect, count);
  const names = Array.from({ length: count }, (_, i) => columnName(cells[i] ?? "", units[i] ?? "", i));
  const rate = rateIn([
    ...dialect.comments,
    ...dialect.before.filter((row) => row.cells !== cells).map((row) => row.cells.join(" ")),
  ]);
  return { names, named: cells.length > 0, rate: rate ?? rateInNames(names) };
}

/** A header row may be one cell off: a trailing separator, or an index column without name. */
function fits(cells: readonly string[], count: number): boolean {
  return (
    cells.length === count ||
    (cells.length === count + 1 && cells.at(-1) === "") ||
    (count > 1 && cells.length === count - 1)
  );
}

/** `Labels:= A, B`, or a last comment line that has a name for each column. */
function namesInComments({ comments, delimiter }: Dialect, count: number): readonly string[] {
  for (const comment of comments) {
    const labels = /^\W*(labels?|columns?|channels?|fields?)\W+(.+)$/i.exec(comment)?.[2];
    if (labels === undefined) continue;
    const names = labels.replace(/^[\s["'[]+|[\s\]"']+$/g, "").split(/["']?\s*[,;\t|]\s*["']?/);
    if (names.length === count) return names;
  }
  const names = (comments.at(-1) ?? "")
    .split(delimiter === "space" ? /\s+/ : /[,;\t|]/)
    .map((name) => name.trim());
  return count > 1 && names.length === count && names.every((name) => name.length < 40) ? names : [];
}

function columnName(cell: string, unitCell: string, index: number): ColumnName {
  const text = cell.replace(/\s+/g, " ").trim();
  const inBrackets = /^(.*\S)\s*(?:\[([^\][]*)\]|\(([^()]*)\))$/.exec(text);
  const unit =
    ucumUnit(unitCell.replace(/^[([]|[)\]]$/g, "")) || ucumUnit(inBrackets?.[2] ?? inBrackets?.[3] ?? "");
  const name = inBrackets?.[1] ?? text;
  return { name: name === "" ? `column ${index + 1}` : name, unit };
}

function rateIn(lines: readonly string[]): Header["rate"] {
  for (const line of lines) {
    const got =
      /\b(?:sampl\w*[\s_-]*(?:rate|freq\w*)|fs|srate|sfreq|rate)\b(?:[^\d\n-]{0,20})(\d+(?:[.,]\d+)?)\s*(k?hz)?/i.exec(
        line,
      );
    if (got === null) continue;
    const kilo = /khz/i.test(got[0]) ? 1000 : 1;
    const value = Number(got[1]!.replace(",", ".")) * kilo;
    if (value > 0) return { value, words: line.trim() };
  }
  return null;
}

/** `sample_10hz` */
function rateInNames(names: readonly ColumnName[]): Header["rate"] {
  for (const { name } of names) {
    const got = /(?:^|[\s_-])(\d+(?:\.\d+)?)\s?hz$/i.exec(name);
    if (got !== null && Number(got[1]) > 0) return { value: Number(got[1]), words: name };
  }
  return null;
}
