/** Writes a practice run: the recording by its ending, the truth in the same form, the beats as JSON. */
import { open } from "node:fs/promises";
import { basename, dirname, extname, join } from "node:path";
import { writeCsv } from "../formats/csv/write-csv.js";
import { writeEdf } from "../formats/edf/write-edf.js";
import type { OutgoingFile, OutgoingRecording } from "../formats/outgoing.js";
import { writeWfdb } from "../formats/wfdb/write-wfdb.js";
import { fileFault } from "./file-source.js";
import { inputStop, usageStop } from "./stop.js";

const writers: Readonly<Record<string, (recording: OutgoingRecording) => OutgoingFile[]>> = {
  ".csv": writeCsv,
  ".edf": writeEdf,
  ".hea": writeWfdb,
};

export interface OutPlace {
  readonly folder: string;
  /** File name without folder and ending. */
  readonly name: string;
  write(recording: OutgoingRecording): OutgoingFile[];
}

/** @throws {Stop} usage, unless the name ends in .csv, .edf or .hea */
export function outPlace(path: string): OutPlace {
  const ending = extname(path);
  const write = writers[ending.toLowerCase()];
  const name = basename(path, ending);
  if (write === undefined || name === "") {
    throw usageStop(`--out ${path}: end the name in .csv (a table), .edf (EDF+) or .hea (WFDB)`);
  }
  // The header of a WFDB record names its files: it can hold no blank.
  if (ending.toLowerCase() === ".hea" && !/^[\w.-]+$/.test(name)) {
    throw usageStop(`--out ${path}: a WFDB record's name takes letters, digits, _, - and . only`);
  }
  return { folder: dirname(path), name, write };
}

/** @returns the path written. @throws {Stop} bad input, when it cannot be written */
export async function writeOut(folder: string, { name, pieces }: OutgoingFile): Promise<string> {
  const path = join(folder, name);
  try {
    const handle = await open(path, "w");
    try {
      for (const piece of pieces) await handle.write(piece);
    } finally {
      await handle.close();
    }
  } catch (error) {
    throw inputStop(fileFault(path, error));
  }
  return path;
}
