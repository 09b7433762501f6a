/** Opens made-up EDF files and gathers what comes out, for tests. */
import type { Recording } from "../../recording.js";
import { emptyFolder, memorySource } from "../../testing/memory-source.js";
import { walk } from "../../testing/walk.js";
import { edfReader } from "../reader.js";
import { edfFile, type TestFile } from "./edf-file.js";

export function openEdf(bytes: Uint8Array, rate?: number): Promise<Recording> {
  const options = rate === undefined ? undefined : { rate };
  return edfReader.open(memorySource("a.edf", bytes), emptyFolder, options);
}

export async function readEdf(file: TestFile, rate?: number) {
  const recording = await openEdf(edfFile(file), rate);
  const { values } = await walk(recording);
  return {
    recording,
    values: values.map((all) => [...all]),
    codes: recording.problems.map(({ code }) => code),
  };
}

export const pleth = { label: "Pleth", samples: 4 };
export const annotations = {
  label: "EDF Annotations",
  samples: 30,
  physical: [-1, 1],
  digital: [-32768, 32767],
} as const;
export const ramp = (k: number) => [4 * k, 4 * k + 1, 4 * k + 2, 4 * k + 3];
