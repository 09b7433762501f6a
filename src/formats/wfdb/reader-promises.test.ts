import { readFileSync } from "node:fs";
import { describeReader, type ReaderFixture } from "../testing/reader-contract.js";
import { wfdbReader } from "./reader.js";
import { bytesOf, pack } from "./testing/wfdb-files.js";

const wave = (count: number, top: number) =>
  Array.from({ length: count }, (_, n) => Math.round(top * Math.sin(n / 9) * Math.cos(n / 70)));
const sum = (values: readonly number[]) => values.reduce((all, value) => all + value, 0);
const checksum = (values: readonly number[]) =>
  ((((sum(values) + 32_768) % 65_536) + 65_536) % 65_536) - 32_768;

const ecg = wave(1200, 2000);
const pleth = wave(300, 30_000);
const golden = (path: string) => new Uint8Array(readFileSync(new URL(`golden/${path}`, import.meta.url)));

const twoFiles: ReaderFixture = {
  name: "two files, several samples per frame, byte offset",
  file: "rec.hea",
  files: bytesOf({
    "rec.hea": `rec 2 125 300 8:26:04 26/10/1994
rec_a.dat 212x4 2000(12)/mV 12 0 ${ecg[0]} ${checksum(ecg)} 0 II
rec_b.dat 16+24 100/NU 16 0 ${pleth[0]} ${checksum(pleth)} 0 PLETH
#a comment
`,
    "rec_a.dat": pack(212, ecg),
    "rec_b.dat": Uint8Array.from([...new Uint8Array(24), ...pack(16, pleth)]),
  }),
  damage: [
    { file: "rec_a.dat", from: 0, kept: (byte) => [Math.floor(Math.floor(byte / 3) * 2), 300] },
    { file: "rec_b.dat", from: 24, kept: (byte) => [1200, Math.floor((byte - 24) / 2)] },
  ],
};

const segments: ReaderFixture = {
  name: "segments with a silence between, and beats",
  file: "seg.hea",
  files: bytesOf({
    "seg.hea": "seg/3 1 125 500\nseg_1 200\n~ 100\nseg_2 200\n",
    "seg_1.hea": `seg_1 1 125 200\nseg_1.dat 311 10 10 0 0 ${checksum(wave(200, 500))} 0 PLETH\n`,
    "seg_2.hea": `seg_2 1 125 200\nseg_2.dat 160 20 16 0 0 ${checksum(wave(200, 9000))} 0 PLETH\n`,
    "seg_1.dat": pack(311, wave(200, 500)),
    "seg_2.dat": pack(160, wave(200, 9000)),
    "seg.atr": golden("annotations/beats.atr"),
  }),
  optional: ["seg.atr"],
  damage: [
    { file: "seg_1.dat", from: 0, kept: (byte) => [Math.floor(byte / 4) * 3] },
    { file: "seg_2.dat", from: 0, kept: (byte) => [300 + Math.floor(byte / 2)] },
    { file: "seg_2.hea", from: 0, kept: () => [300] },
  ],
};

const flac: ReaderFixture = {
  name: "FLAC",
  file: "f516.hea",
  files: { "f516.hea": golden("flac/f516.hea"), "f516.dat": golden("flac/f516.dat") },
};

const differences: ReaderFixture = {
  name: "differences, length not stated",
  file: "d.hea",
  files: bytesOf({ "d.hea": "d 2\nd.dat 8\nd.dat 8 0 12 0 5\n", "d.dat": pack(8, wave(400, 100)) }),
  damage: [{ file: "d.dat", from: 0, kept: (byte) => [Math.floor(byte / 2), Math.floor(byte / 2)] }],
};

describeReader("wfdb", wfdbReader, [twoFiles, segments, flac, differences], {
  large: () => ({
    name: "five MiB",
    file: "rec.dat",
    files: bytesOf({
      "rec.dat": new Uint8Array(5 << 20).fill(3),
      "rec.hea": "rec 3 125\nrec.dat 16x2 1 16 0 0\nrec.dat 16 1 16 0 0\nrec.dat 16 1 16 0 0\n",
    }),
  }),
});
