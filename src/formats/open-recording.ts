/** The front door: bytes of any kind in, a recording out, whichever reader knows them. */
import { excerpt } from "../model/index.js";
import { noBlocks } from "./chosen-channels.js";
import { csvReader } from "./csv/reader.js";
import { edfReader } from "./edf/reader.js";
import { fhirReader } from "./fhir/reader.js";
import { matlabReader } from "./matlab/index.js";
import { readFully } from "./read-fully.js";
import type { ByteSource, Folder, Reader, ReadOptions, Recording } from "./recording.js";
import { wfdbReader } from "./wfdb/index.js";

interface Readable {
  readonly reader: Reader;
  /** For the user, where nothing fits. */
  readonly says: string;
}

/** Those that know their own first bytes stand before those that go by the name; tables take what is left. */
const readable: readonly Readable[] = [
  { reader: edfReader, says: "EDF, EDF+, BDF (.edf, .bdf)" },
  { reader: matlabReader, says: "MATLAB level 5 (.mat)" },
  { reader: fhirReader, says: "FHIR SampledData (.json)" },
  { reader: wfdbReader, says: "WFDB (.hea, .dat)" },
  { reader: csvReader, says: "tables of text (.csv, .tsv, .txt)" },
];

export const readers: readonly Reader[] = readable.map(({ reader }) => reader);

/** First bytes shown to `recognises`. */
const headBytes = 4096;

/**
 * Opens a recording with the first reader that knows its name or first bytes and can make something of it;
 * where all who know it fail, the first one's reasons are given.
 *
 * @param folder companions beside the file, such as the signal files of a WFDB header
 * @returns always a recording; without channels and with one fatal `unknown-format` or `empty-file` where no reader knows it.
 *   Rejects only where the source does: a broken disk.
 */
export async function openRecording(
  given: ByteSource,
  folder: Folder,
  options?: ReadOptions,
): Promise<Recording> {
  const source = named(given);
  const head = await readFully(source, 0, headBytes);
  if (head.length === 0) return unread(source, "empty-file", "nothing: the file is empty");
  let first: Recording | null = null;
  for (const reader of readers) {
    if (!reader.recognises(source.name, head)) continue;
    const recording = await reader.open(source, folder, options);
    if (recording.problems.every(({ weight }) => weight !== "fatal")) return recording;
    first ??= recording;
  }
  return first ?? unread(source, "unknown-format", firstBytes(head));
}

/** A pasted or piped source may lack a name; problems must still say where. */
function named(source: ByteSource): ByteSource {
  if (source.name.trim() !== "") return source;
  return { name: "unnamed", size: source.size, read: (offset, length) => source.read(offset, length) };
}

function unread(source: ByteSource, code: string, found: string): Recording {
  const expected = readable.map(({ says }) => says).join("; ");
  return {
    format: "unknown",
    channels: [],
    startedAt: null,
    annotations: [],
    problems: [{ code, weight: "fatal", where: source.name, expected, found }],
    blocks: noBlocks,
  };
}

/** The beginning as text where it is text, else as numbers. */
function firstBytes(head: Uint8Array): string {
  const start = [...head.subarray(0, 16)];
  const printable = start.every((byte) => (byte >= 32 && byte < 127) || byte === 10 || byte === 13);
  if (printable) return `a file that begins "${excerpt(String.fromCharCode(...start))}"`;
  return `a file that begins with the bytes ${start.map((byte) => byte.toString(16).padStart(2, "0")).join(" ")}`;
}
