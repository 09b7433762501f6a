/**
 * One process, two full readings of the same samples: run by main.ts as a bundle, so that what is timed is the code as
 * it ships. Prints JSON: seconds of the first and second reading, beats, windows.
 */
import { readFileSync } from "node:fs";
import { readAll } from "./read-all.js";

const bytes = readFileSync(process.argv[2]!);
const values = new Float64Array(bytes.buffer, bytes.byteOffset, bytes.length / 8);
const rate = Number(process.argv[3]);
const first = readAll(values, rate);
const second = readAll(values, rate);
console.log(
  JSON.stringify({ first_s: first.took, second_s: second.took, beats: first.beats, windows: first.windows }),
);
