/** What the header of an EDF, EDF+, BDF or BDF+ file says, each doubt told as a problem. */
import { excerpt } from "../../model/index.js";
import type { ProblemLog } from "../problem-log.js";
import { readFully } from "../read-fully.js";
import type { ByteSource } from "../recording.js";
import {
  fieldCount,
  fieldNumber,
  fieldText,
  fileFields,
  fixedHeaderBytes,
  type SignalFieldName,
  signalFields,
  signalHeaderBytes,
} from "./header-fields.js";
import type { Ranges } from "./scaling.js";

export interface EdfSignal extends Ranges {
  readonly label: string;
  /** As written. */
  readonly unit: string;
  /** Whole number from 0; 0 also when unreadable. */
  readonly samplesPerRecord: number;
  /** Holds notes, not samples. */
  readonly annotations: boolean;
}

export interface EdfHeader {
  /** Bytes per sample: 2 in EDF, 3 in BDF. */
  readonly width: 2 | 3;
  /** `no` in plain EDF: no annotations, no record times. */
  readonly plus: "no" | "continuous" | "discontinuous";
  readonly startDate: string;
  readonly startTime: string;
  readonly recording: string;
  /** Where the records begin, if the header is right about itself; `null` when unreadable. */
  readonly statedBytes: number | null;
  /** -1 while a recording goes on; `null` when unreadable. */
  readonly records: number | null;
  /** Seconds per record; 0 in files of notes only; `null` when unreadable. */
  readonly duration: number | null;
  readonly signals: readonly EdfSignal[];
}

const versions = [
  { width: 2, bytes: [0x30, 0x20, 0x20, 0x20, 0x20, 0x20, 0x20, 0x20] },
  { width: 3, bytes: [0xff, 0x42, 0x49, 0x4f, 0x53, 0x45, 0x4d, 0x49] },
] as const;

/** Bytes per sample by the version field; `null` when it is neither EDF nor BDF. */
export function sampleWidth(head: Uint8Array): 2 | 3 | null {
  return versions.find(({ bytes }) => bytes.every((byte, n) => head[n] === byte))?.width ?? null;
}

/** Largest piece read at once. A header of 9999 signals is 2.5 MB. */
const piece = 1 << 18;

/** @returns `null` after a fatal problem */
export async function readHeader(source: ByteSource, log: ProblemLog): Promise<EdfHeader | null> {
  const fixed = await readFully(source, 0, fixedHeaderBytes);
  const where = `${source.name}, header`;
  const fatal = (code: string, expected: string, found: string) => {
    log.add(code, "fatal", where, expected, found);
    return null;
  };
  const width = sampleWidth(fixed);
  if (fixed.length < fixedHeaderBytes) {
    return fatal("header-cut", `${fixedHeaderBytes} bytes`, `${fixed.length} bytes`);
  }
  if (width === null) {
    return fatal("not-edf", 'version "0" or BIOSEMI', shown(fieldText(fixed, 0, 8)));
  }
  const text = (field: keyof typeof fileFields) =>
    fieldText(fixed, fileFields[field][0], fileFields[field][1]);
  const count = fieldCount(text("signals"));
  if (count === null || count < 1) return fatal("signal-count", "1 to 9999 signals", shown(text("signals")));
  const size = count * signalHeaderBytes;
  const rest = new Uint8Array(Math.min(size, Math.max(0, source.size - fixedHeaderBytes)));
  let filled = 0;
  while (filled < rest.length) {
    const more = await readFully(source, fixedHeaderBytes + filled, Math.min(piece, rest.length - filled));
    if (more.length === 0) break;
    rest.set(more, filled);
    filled += more.length;
  }
  if (filled < size) {
    return fatal(
      "header-cut",
      `${fixedHeaderBytes + size} bytes for ${count} signals`,
      `${fixedHeaderBytes + filled} bytes`,
    );
  }
  noteForeignBytes(fixed, rest, width, where, log);
  const reserved = text("reserved");
  return {
    width,
    plus: /^(EDF|BDF)\+D/.test(reserved)
      ? "discontinuous"
      : /^(EDF|BDF)\+C/.test(reserved)
        ? "continuous"
        : "no",
    startDate: text("startDate"),
    startTime: text("startTime"),
    recording: text("recording"),
    statedBytes: fieldCount(text("headerBytes")),
    records: fieldCount(text("records")),
    duration: fieldNumber(text("duration")),
    signals: readSignals(rest, count, source.name, log),
  };
}

function shown(text: string): string {
  return text === "" ? "blank" : `"${excerpt(text)}"`;
}

function noteForeignBytes(
  fixed: Uint8Array,
  rest: Uint8Array,
  width: 2 | 3,
  where: string,
  log: ProblemLog,
): void {
  const foreign = (byte: number) => byte < 32 || byte > 126;
  const at = fixed.findIndex((byte, n) => foreign(byte) && !(width === 3 && n === 0));
  const place = at >= 0 ? at : fixedHeaderBytes + rest.findIndex(foreign);
  if (at < 0 && place < fixedHeaderBytes) return;
  const byte = at >= 0 ? fixed[at] : rest[place - fixedHeaderBytes];
  log.add("header-not-ascii", "note", `${where}, byte ${place}`, "printable ASCII only", `byte ${byte}`);
}

function readSignals(bytes: Uint8Array, count: number, file: string, log: ProblemLog): EdfSignal[] {
  const starts = new Map<SignalFieldName, { from: number; width: number }>();
  let from = 0;
  for (const [field, width] of signalFields) {
    starts.set(field, { from, width });
    from += width * count;
  }
  const signals: EdfSignal[] = [];
  for (let n = 0; n < count; n++) {
    const text = (field: SignalFieldName) => {
      const start = starts.get(field);
      return start === undefined ? "" : fieldText(bytes, start.from + n * start.width, start.width);
    };
    const label = text("label");
    const samples = fieldCount(text("samplesPerRecord"));
    if (samples === null || samples < 0) {
      log.add(
        "samples-per-record",
        "fatal",
        `${file}, header, signal ${n + 1} ${shown(label)}`,
        "a whole number of samples per record",
        shown(text("samplesPerRecord")),
      );
    }
    signals.push({
      label,
      unit: text("unit"),
      digitalMinimum: fieldNumber(text("digitalMinimum")),
      digitalMaximum: fieldNumber(text("digitalMaximum")),
      physicalMinimum: fieldNumber(text("physicalMinimum")),
      physicalMaximum: fieldNumber(text("physicalMaximum")),
      samplesPerRecord: Math.max(0, samples ?? 0),
      annotations: /^(EDF|BDF) Annotations$/.test(label),
    });
  }
  return signals;
}
