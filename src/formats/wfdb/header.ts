/** A whole WFDB header, each doubt told as a problem. Opens no signal file. */
import { excerpt } from "../../model/index.js";
import { textOf } from "../file-text.js";
import type { ProblemLog } from "../problem-log.js";
import { readFully } from "../read-fully.js";
import type { ByteSource } from "../recording.js";
import {
  parseRecordLine,
  parseSegmentLine,
  parseSignalLine,
  type RecordLine,
  type SegmentLine,
  type SignalLine,
  startedAt,
} from "./header-fields.js";

export interface WfdbHeader {
  readonly record: RecordLine;
  /** Empty in a multi-segment record. */
  readonly signals: readonly SignalLine[];
  /** `null` in a record of one piece. */
  readonly segments: readonly SegmentLine[] | null;
  /** ISO 8601 without zone; `null` unless both date and time are there. */
  readonly startedAt: string | null;
  /** Free text of the lines that begin with `#`. May name a person: shown only on request. */
  readonly comments: readonly string[];
}

/** A header of a day in 10 000 segments is 300 kB. */
const largestHeader = 1 << 20;
const piece = 1 << 18;
const longestLine = 4096;
/** More signals than any recorder has; a damaged count must not fill the memory. */
const mostSignals = 1024;
const mostSegments = 100_000;

/** @returns `null` after a problem of weight `weight`: nothing can be read by this header */
export async function readHeader(
  source: ByteSource,
  log: ProblemLog,
  weight: "fatal" | "lost-part" = "fatal",
): Promise<WfdbHeader | null> {
  if (source.size > largestHeader) {
    log.add("header-too-long", weight, source.name, `at most ${largestHeader} bytes`, `${source.size} bytes`);
    return null;
  }
  let text = "";
  for (let at = 0; at < source.size; ) {
    const bytes = await readFully(source, at, Math.min(piece, source.size - at));
    if (bytes.length === 0) break;
    // Cut at a line end, so that no character is torn.
    let end = bytes.lastIndexOf(10) + 1;
    if (end === 0 || at + bytes.length >= source.size) end = bytes.length;
    text += textOf(bytes, 0, end);
    at += end;
  }
  return parseHeader(text.replace(/^\ufeff/, ""), source.name, log, weight);
}

/** The same from text. `file` names it in problems. */
export function parseHeader(
  text: string,
  file: string,
  log: ProblemLog,
  weight: "fatal" | "lost-part" = "fatal",
): WfdbHeader | null {
  const comments: string[] = [];
  const lines: { readonly number: number; readonly text: string }[] = [];
  for (const [n, raw] of text.split(/\r\n|\n|\r/).entries()) {
    const line = raw.replaceAll("\0", " ").trim();
    if (line.startsWith("#")) comments.push(line.slice(1).trim());
    else if (line.length > longestLine) lines.push({ number: n + 1, text: line.slice(0, longestLine) });
    else if (line !== "") lines.push({ number: n + 1, text: line });
  }
  const first = lines[0];
  const record = first === undefined ? null : parseRecordLine(first.text);
  if (first === undefined || record === null) {
    const found = first === undefined ? "no line that is not a comment" : `"${excerpt(first.text)}"`;
    const where = first === undefined ? file : `${file}, line ${first.number}`;
    log.add("record-line", weight, where, "record name and number of signals", found);
    return null;
  }
  const where = `${file}, line ${first.number}`;
  noteRecordLine(record, where, file, log);
  const due = record.segments ?? record.signals;
  const what = record.segments === null ? "signal" : "segment";
  const most = record.segments === null ? mostSignals : mostSegments;
  if (due > most || lines.length - 1 > most) {
    const count = Math.max(due, lines.length - 1);
    if (lines.length - 1 > most || due > 1e6) {
      log.add("too-many-lines", weight, where, `at most ${most} ${what}s`, `${count}`);
      return null;
    }
  }
  const rest = lines.slice(1, 1 + due);
  if (rest.length < due) {
    log.add(`${what}-lines-missing`, "lost-part", where, `${due} ${what} lines`, `${rest.length}`);
  }
  const extra = lines[1 + due];
  if (extra !== undefined) {
    const found = `"${excerpt(extra.text)}"; not read`;
    log.add("line-left-over", "note", `${file}, line ${extra.number}`, `${due} ${what} lines`, found);
  }
  const signals: SignalLine[] = [];
  const segments: SegmentLine[] = [];
  for (const { number, text } of rest) {
    const segment = record.segments === null ? null : parseSegmentLine(text);
    const signal = record.segments === null ? parseSignalLine(text) : null;
    if (signal !== null) signals.push(signal);
    else if (segment !== null) segments.push(segment);
    else {
      // Without this line the place of all that follows is not known.
      const expected = record.segments === null ? "file name and format" : "segment name and length";
      log.add(`${what}-line`, weight, `${file}, line ${number}`, expected, `"${excerpt(text)}"`);
      return null;
    }
    if (signal !== null && signal.misread !== null) {
      const found = `"${excerpt(signal.misread)}"; the rest of the line taken as description`;
      log.add("signal-field", "lost-part", `${file}, line ${number}`, "a number", found);
    }
  }
  return {
    record,
    signals,
    segments: record.segments === null ? null : segments,
    startedAt: startedAt(record.time, record.date),
    comments,
  };
}

function noteRecordLine(record: RecordLine, where: string, file: string, log: ProblemLog): void {
  if (!file.startsWith(record.name)) {
    log.add("record-name", "note", where, `the name of the file, ${file}`, `"${excerpt(record.name)}"`);
  }
  if (record.time !== null && record.date !== null && startedAt(record.time, record.date) === null) {
    const found = `"${excerpt(`${record.time} ${record.date}`)}"`;
    log.add("start-time", "note", where, "time H:M:S and date D/M/Y", found);
  }
  if (Number.isNaN(record.frames)) {
    log.add(
      "length-unreadable",
      "note",
      where,
      "a whole number of frames",
      "other text; length from the files",
    );
  }
}
