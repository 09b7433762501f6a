/** Reads a JSON file whole: the text has no fixed places, so there is no reading it in parts. */
import { strFromU8 } from "fflate";
import { excerpt } from "../../model/index.js";
import type { ProblemLog } from "../problem-log.js";
import { readFully } from "../read-fully.js";
import type { ByteSource } from "../recording.js";

/** The text and the parsed strings are held beside the bytes, so memory takes about three times this. */
export const largestFile = 256 * 2 ** 20;
const piece = 1 << 20;

/** @returns `undefined` after a fatal problem */
export async function readJson(source: ByteSource, log: ProblemLog, largest = largestFile): Promise<unknown> {
  if (source.size > largest) {
    log.add(
      "file-too-large",
      "fatal",
      source.name,
      `at most ${largest} bytes of JSON`,
      `${source.size} bytes`,
    );
    return undefined;
  }
  const text = await readText(source);
  try {
    return JSON.parse(text);
  } catch (error) {
    const found =
      text.trim() === "" ? "an empty file" : excerpt(error instanceof Error ? error.message : "", 120);
    log.add("not-json", "fatal", source.name, "JSON text", found || "something else");
    return undefined;
  }
}

async function readText(source: ByteSource): Promise<string> {
  const bytes = new Uint8Array(source.size);
  let filled = 0;
  while (filled < bytes.length) {
    const more = await readFully(source, filled, Math.min(piece, bytes.length - filled));
    if (more.length === 0) break;
    bytes.set(more, filled);
    filled += more.length;
  }
  // The byte order mark is no part of JSON, but some writers put one.
  const start = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  return strFromU8(bytes.subarray(start, filled));
}
