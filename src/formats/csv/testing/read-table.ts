/** Opens a table from text or bytes and reads it whole. */
import type { ReadOptions } from "../../recording.js";
import { emptyFolder, memorySource } from "../../testing/memory-source.js";
import { walk } from "../../testing/walk.js";
import { csvReader } from "../reader.js";
import { bytesOf } from "./table-text.js";

export async function readTable(table: string | Uint8Array, options?: ReadOptions) {
  const bytes = typeof table === "string" ? bytesOf(table) : table;
  const recording = await csvReader.open(memorySource("a.csv", bytes), emptyFolder, options);
  const { values } = await walk(recording);
  return {
    recording,
    channels: recording.channels,
    values: values.map((all) => [...all]),
    problems: recording.problems,
    codes: recording.problems.map(({ code }) => code),
  };
}
