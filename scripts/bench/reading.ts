/**
 * One process, two timed readings of the same samples and one that counts what is allocated: run by main.ts as a bundle,
 * so that what is timed is the code as it ships. Prints JSON.
 */
import { readFileSync } from "node:fs";
import { allocatedBy } from "./allocated.js";
import { readAll, touch } from "./read-all.js";

const bytes = readFileSync(process.argv[2]!);
const values = new Float64Array(bytes.buffer, bytes.byteOffset, bytes.length / 8);
const rate = Number(process.argv[3]);
touch(values);
const first = readAll(values, rate);
const second = readAll(values, rate);
const allocated = allocatedBy(() => readAll(values, rate));
console.log(
  JSON.stringify({
    first_s: first.took,
    first_cpu_s: first.cpu,
    second_s: second.took,
    second_cpu_s: second.cpu,
    allocated_per_sample: allocated / values.length,
    beats: first.beats,
    windows: first.windows,
  }),
);
