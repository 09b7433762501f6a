/** Signals that share a file, their place in each frame, and the file's samples as one stream. */
import { excerpt } from "../../model/index.js";
import type { ProblemLog } from "../problem-log.js";
import { readFully } from "../read-fully.js";
import type { ByteSource, Folder } from "../recording.js";
import { openCompanion } from "./companion.js";
import { openFlac } from "./flac-stream.js";
import type { SignalLine } from "./header-fields.js";
import { differences, flacFormats, type SampleFormat, sampleFormats, samplesIn } from "./sample-format.js";

/** Frames asked of a stream at once are a multiple of this, so that no unit of any format is torn. */
export const frameStep = 6;
/** More samples in one frame than any recorder has. */
export const mostPerFrame = 16_384;

/** Stored numbers of one file, frame after frame, each signal's samples of a frame side by side. */
export interface RawStream {
  /**
   * The next `frames` frames into `out`, which has room for `room(frames)`.
   *
   * @param frames a multiple of `frameStep`, except in the last call
   * @returns samples that are there, counted from the first; fewer only where the file ends
   */
  next(frames: number, out: Int32Array): Promise<number>;
}

export interface SignalFile {
  readonly name: string;
  readonly format: number;
  /** Samples of all its signals in one frame. */
  readonly perFrame: number;
  /** Whole frames in the file; `null` while unknown. */
  readonly frames: number | null;
  /** Samples after the last whole frame. */
  readonly odd: number;
  /** Samples at the end that may only fill a unit of bytes. */
  readonly padding: number;
  /** A new stream from the first frame. */
  start(): RawStream;
}

/** A run of header lines with the same file. */
export interface SignalGroup {
  /** Position in the header of the first signal. */
  readonly first: number;
  readonly lines: readonly SignalLine[];
}

export function groupSignals(signals: readonly SignalLine[]): SignalGroup[] {
  const groups: { first: number; lines: SignalLine[] }[] = [];
  for (const [n, line] of signals.entries()) {
    const last = groups.at(-1);
    if (last !== undefined && last.lines[0]?.file === line.file && line.file !== "~") last.lines.push(line);
    else groups.push({ first: n, lines: [line] });
  }
  return groups;
}

/** Length of `out` that any decoder may fill for so many samples. */
export const room = (samples: number) => samples + 8;

/** @returns `null` where there is nothing to read, after a problem that says why unless it is meant so (`~`) */
export async function openSignalFile(
  group: SignalGroup,
  groups: readonly SignalGroup[],
  folder: Folder,
  header: string,
  log: ProblemLog,
): Promise<SignalFile | null> {
  const line = group.lines[0]!;
  const where = `${header}, signal ${group.first}, file ${excerpt(line.file)}`;
  const refuse = (code: string, expected: string, found: string) => {
    log.add(code, "lost-part", where, expected, found);
    return null;
  };
  if (line.format === 0 || line.file === "~") return null;
  if (groups.find(({ lines }) => lines[0]?.file === line.file) !== group) {
    return refuse(
      "signals-apart",
      "signals of one file in one run of lines",
      "the file named again further down",
    );
  }
  const other = group.lines.find(({ format }) => format !== line.format);
  if (other !== undefined) {
    return refuse("mixed-formats", "one format in one file", `${line.format} and ${other.format}`);
  }
  if (group.lines.some(({ offset }) => offset !== line.offset)) {
    log.add("mixed-offsets", "note", where, "one byte offset in one file", `several; ${line.offset} taken`);
  }
  const perFrame = group.lines.reduce((sum, { samplesPerFrame }) => sum + samplesPerFrame, 0);
  if (group.lines.some(({ samplesPerFrame }) => samplesPerFrame < 1)) {
    return refuse("samples-per-frame", "at least 1 sample per frame", "0");
  }
  const format = sampleFormats.get(line.format);
  if (format === undefined && !flacFormats.has(line.format)) {
    const known = [...sampleFormats.keys(), ...flacFormats.keys()].join(", ");
    return refuse("format-unknown", `a signal format among ${known}`, `${line.format}`);
  }
  const source = await openCompanion(folder, line.file, where, log);
  if (source === null) return null;
  if (format === undefined) return openFlac(source, group.lines, line.offset, log);
  const samples = samplesIn(format, Math.max(0, source.size - line.offset));
  return {
    name: source.name,
    format: line.format,
    perFrame,
    frames: Math.floor(samples / perFrame),
    odd: samples % perFrame,
    padding: format.unitSamples - 1,
    start: () => plainStream(source, line.offset, perFrame, format, sumsFor(line.format, group.lines)),
  };
}

type Sums = (raw: Int32Array, count: number, perFrame: number) => void;

/** Format 8 only: from differences to values, in place, each signal from its initial value on. */
function sumsFor(format: number, lines: readonly SignalLine[]): (() => Sums) | null {
  if (format !== differences) return null;
  const owner = lines.flatMap(({ samplesPerFrame }, n) => Array<number>(samplesPerFrame).fill(n));
  return () => {
    const last = Int32Array.from(lines, ({ initial }) => initial);
    return (raw, count, perFrame) => {
      for (let n = 0; n < count; n++) {
        const signal = owner[n % perFrame] as number;
        raw[n] = last[signal] = ((last[signal] as number) + (raw[n] as number)) | 0;
      }
    };
  };
}

function plainStream(
  source: ByteSource,
  offset: number,
  perFrame: number,
  format: SampleFormat,
  sums: (() => Sums) | null,
): RawStream {
  const add = sums?.() ?? null;
  let at = offset;
  return {
    async next(frames, out) {
      const wanted = frames * perFrame;
      const units = Math.ceil(wanted / format.unitSamples);
      const bytes = await readFully(
        source,
        at,
        Math.min(units * format.unitBytes, Math.max(0, source.size - at)),
      );
      at += bytes.length;
      const count = Math.min(wanted, samplesIn(format, bytes.length));
      const full = Math.floor(bytes.length / format.unitBytes);
      format.decode(bytes, Math.min(units, full), out);
      if (count > full * format.unitSamples) {
        const rest = new Uint8Array(format.unitBytes);
        rest.set(bytes.subarray(full * format.unitBytes));
        const last = new Int32Array(format.unitSamples);
        format.decode(rest, 1, last);
        out.set(last.subarray(0, count - full * format.unitSamples), full * format.unitSamples);
      }
      add?.(out, count, perFrame);
      return count;
    },
  };
}
