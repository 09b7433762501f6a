import { readFileSync } from "node:fs";
import { describeReader, type ReaderFixture } from "../testing/reader-contract.js";
import { matlabReader } from "./reader.js";
import { matFile } from "./testing/mat-file.js";

const golden = (path: string) => new Uint8Array(readFileSync(new URL(`golden/${path}`, import.meta.url)));
const wave = (count: number) => Array.from({ length: count }, (_, n) => Math.sin(n / 7) + n / 1e4);

const plain = matFile([
  { name: "fs", rows: 1, columns: 1, numbers: [100] },
  { name: "PLETH", rows: 300, columns: 1, numbers: wave(300) },
]);
/** Numbers of the last variable reach to the end of the file. */
const first = plain.length - 300 * 8;

const fixtures: readonly ReaderFixture[] = [
  {
    name: "plain, a rate variable",
    file: "p.mat",
    files: { "p.mat": plain },
    damage: [{ file: "p.mat", from: first, kept: (byte) => [Math.floor((byte - first) / 8)] }],
  },
  {
    name: "compressed, a time variable, matrices",
    file: "shapes.mat",
    files: { "shapes.mat": golden("scipy/shapes.mat") },
  },
  { name: "big-endian", file: "big.mat", files: { "big.mat": golden("scipy/big.mat") } },
  {
    name: "written by MATLAB",
    file: "data.mat",
    files: { "data.mat": golden("real/data.mat") },
    options: { rate: 100 },
  },
];

describeReader("matlab", matlabReader, fixtures, {
  large: () => {
    const numbers = wave(300_000);
    const bytes = matFile([
      { name: "PLETH", rows: 300_000, columns: 1, numbers },
      { name: "ECG", rows: 1, columns: 300_000, numbers },
    ]);
    return { name: "five MiB", file: "large.mat", files: { "large.mat": bytes }, options: { rate: 125 } };
  },
});
