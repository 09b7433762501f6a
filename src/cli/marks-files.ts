/** The small tables of marks beside recordings: beats, unmarked spans, window labels, the list of records. */
import { open, readFile } from "node:fs/promises";
import Papa from "papaparse";
import { fileFault } from "./file-source.js";
import type { Unmarked } from "./score-beats.js";
import { type LabelledWindow, labels } from "./score-grades.js";
import { inputStop } from "./stop.js";

type Row = Readonly<Record<string, string>>;

/** Rows of a table with a head line. @throws {Stop} bad input */
async function readRows(path: string, needed: readonly string[]): Promise<readonly Row[]> {
  let text: string;
  try {
    text = await readFile(path, "utf8");
  } catch (error) {
    throw inputStop(fileFault(path, error));
  }
  const { data, meta } = Papa.parse<Row>(text.replace(/^\ufeff/, ""), {
    header: true,
    skipEmptyLines: true,
    transformHeader: (name) => name.trim(),
  });
  const missing = needed.filter((name) => !(meta.fields ?? []).includes(name));
  if (missing.length > 0) throw inputStop(`${path}: no column ${missing.join(", ")} in the first line`);
  return data;
}

/** @throws {Stop} bad input, with the line */
function numberIn(row: Row, column: string, path: string, index: number): number {
  const text = row[column]?.trim() ?? "";
  const value = Number(text);
  if (text === "" || !Number.isFinite(value)) {
    throw inputStop(`${path}, line ${index + 2}: ${column} is not a number`);
  }
  return value;
}

/** Whether a file begins as a table of marks does. */
export async function holdsMarks(path: string): Promise<boolean> {
  let head: string;
  try {
    const handle = await open(path, "r");
    const { buffer, bytesRead } = await handle
      .read(Buffer.alloc(256), 0, 256, 0)
      .finally(() => handle.close());
    head = buffer.toString("utf8", 0, bytesRead);
  } catch (error) {
    throw inputStop(fileFault(path, error));
  }
  const names = head
    .replace(/^\ufeff/, "")
    .split(/\r?\n/)[0]!
    .split(",")
    .map((name) => name.trim());
  return names.includes("kind") && names.includes("time_s");
}

/** Marks of one kind in time order, seconds: `P` systolic peaks, `F` feet, `R` peaks of R waves. */
export async function readMarks(path: string, kind: "P" | "F" | "R"): Promise<number[]> {
  const rows = await readRows(path, ["kind", "time_s"]);
  return rows
    .map((row, i) => ({ kind: row["kind"]?.trim(), time: numberIn(row, "time_s", path, i) }))
    .filter((mark) => mark.kind === kind)
    .map((mark) => mark.time)
    .sort((a, b) => a - b);
}

export interface NamedSpan extends Unmarked {
  /** Channel it holds for; empty when for all. */
  readonly channel: string;
}

export async function readUnmarked(path: string): Promise<NamedSpan[]> {
  const rows = await readRows(path, ["start_s", "end_s"]);
  return rows.map((row, i) => ({
    from: numberIn(row, "start_s", path, i),
    to: numberIn(row, "end_s", path, i),
    channel: row["channel"]?.trim() ?? "",
  }));
}

export async function readLabels(path: string): Promise<LabelledWindow[]> {
  const rows = await readRows(path, ["start_s", "end_s", "label"]);
  return rows.map((row, i) => {
    const label = labels.find((known) => known === row["label"]?.trim());
    if (label === undefined) {
      throw inputStop(`${path}, line ${i + 2}: label is not one of ${labels.join(", ")}`);
    }
    return { from: numberIn(row, "start_s", path, i), to: numberIn(row, "end_s", path, i), label };
  });
}

export interface ListedRecord {
  readonly name: string;
  /** `FILE` or `FILE#CHANNEL`, as in the list. */
  readonly source: string;
  readonly rate: number | null;
  readonly person: string;
}

export async function readList(path: string): Promise<ListedRecord[]> {
  const rows = await readRows(path, ["name", "source"]);
  return rows.map((row, i) => ({
    name: row["name"]?.trim() ?? "",
    source: row["source"]?.trim() ?? "",
    rate: (row["rate_hz"]?.trim() ?? "") === "" ? null : numberIn(row, "rate_hz", path, i),
    person: row["person"]?.trim() ?? "",
  }));
}
