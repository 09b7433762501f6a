import { readFileSync } from "node:fs";
import { unzlibSync, zlibSync } from "fflate";
import { describe, expect, test } from "vitest";
import type { ReadOptions } from "../recording.js";
import { emptyFolder, memoryFolder, memorySource } from "../testing/memory-source.js";
import { walk } from "../testing/walk.js";
import { matlabReader } from "./reader.js";
import { type Made, matFile } from "./testing/mat-file.js";

const golden = (path: string) => new Uint8Array(readFileSync(new URL(`golden/${path}`, import.meta.url)));
const expected = JSON.parse(
  readFileSync(new URL("golden/scipy/expected.json", import.meta.url), "utf8"),
) as Record<string, Record<string, number[][]>>;

async function read(bytes: Uint8Array, options?: ReadOptions) {
  const recording = await matlabReader.open(memorySource("a.mat", bytes), emptyFolder, options);
  const { values } = await walk(recording);
  const byName = Object.fromEntries(recording.channels.map(({ name }, n) => [name, [...values[n]!]]));
  return { recording, byName, codes: recording.problems.map(({ code, weight }) => `${code} ${weight}`) };
}
const made = (variables: readonly Made[], options?: ReadOptions) => read(matFile(variables), options);
const ramp = (count: number, step = 1) => Array.from({ length: count }, (_, n) => n * step);

// Oracle: SciPy; see golden/made-by.md.
describe("against SciPy", () => {
  test.each(["types", "types-plain"])("%s: all storage types give SciPy's numbers", async (name) => {
    const { recording, byName, codes } = await read(golden(`scipy/${name}.mat`));
    const due = Object.entries(expected[name]!).filter(([key]) => key !== "fs");
    expect(byName).toEqual(Object.fromEntries(due.map(([key, rows]) => [key, rows.flat()])));
    expect(recording.channels).toHaveLength(10);
    for (const { rate, samples } of recording.channels) expect([rate, samples]).toEqual([50, 40]);
    expect(codes).toEqual([]);
  });

  test.each(["shapes", "shapes-plain"])(
    "%s: columns of tall and rows of wide matrices, on the clock t",
    async (name) => {
      const { recording, byName, codes } = await read(golden(`scipy/${name}.mat`));
      const { tall, wide, PLETH } = expected[name]!;
      expect(byName).toEqual({
        "tall 1": tall!.map((row) => row[0]),
        "tall 2": tall!.map((row) => row[1]),
        "tall 3": tall!.map((row) => row[2]),
        "wide 1": wide![0],
        "wide 2": wide![1],
        PLETH: PLETH!.flat(),
      });
      expect(recording.channels.map(({ rate }) => rate)).toEqual(new Array(6).fill(125));
      expect(recording.channels.find(({ name: of }) => of === "PLETH")?.kind).toBe("display-pleth");
      expect(codes.filter((code) => code.startsWith("variable-skipped"))).toHaveLength(7);
      expect(codes).toContain("length-differs note");
    },
  );

  test("big-endian, small types, short tags, a rate variable", async () => {
    const { recording, byName, codes } = await read(golden("scipy/big.mat"));
    const { IR_ADC, pair } = expected["big"]!;
    expect(byName).toEqual({ IR_ADC: IR_ADC!.flat(), "pair 1": pair![0], "pair 2": pair![1] });
    expect(recording.channels[0]).toMatchObject({ kind: "raw-light", colour: "infrared", rate: 200 });
    expect(codes).toEqual([]);
  });
});

test("a file written by MATLAB has the numbers of its text twin", async () => {
  const text = readFileSync(new URL("../../../data/recordings/data.csv", import.meta.url), "utf8");
  const due = text
    .split("\n")
    .map(Number)
    .filter((_, n, all) => n < all.length - 1 || all[n] !== 0);
  const { recording, byName, codes } = await read(golden("real/data.mat"), { rate: 100 });
  expect(byName["hr"]).toHaveLength(2483);
  expect(byName["hr"]).toEqual(due.slice(0, 2483));
  expect(recording.channels[0]).toMatchObject({ rate: 100, kind: "display-pleth", samples: 2483 });
  expect(codes).toEqual(["kind-assumed note"]);
});

describe("time", () => {
  const wave = { name: "PLETH", rows: 500, columns: 1, numbers: ramp(500) };

  test("from a time variable in milliseconds, told as assumed", async () => {
    const { recording, codes } = await made([
      wave,
      { name: "timer", rows: 1, columns: 500, numbers: ramp(500, 8) },
    ]);
    expect(recording.channels.map(({ name, rate }) => [name, rate])).toEqual([["PLETH", 125]]);
    expect(codes).toEqual(["time-unit-assumed note"]);
  });

  test("with a pause: missing samples on the even grid", async () => {
    const times = ramp(500, 0.01).map((t, n) => (n >= 200 ? t + 0.5 : t));
    const { byName, codes } = await made([wave, { name: "t", rows: 500, columns: 1, numbers: times }]);
    expect(byName["PLETH"]).toEqual([
      ...ramp(200),
      ...new Array(50).fill(Number.NaN),
      ...ramp(500).slice(200),
    ]);
    expect(codes).toEqual(["gap note"]);
  });

  test.each(["fs", "Fs", "FS", "rate", "sampling_rate", "SamplingRate", "sample_rate", "srate", "sfreq"])(
    "from the rate variable %s",
    async (name) => {
      const { recording } = await made([wave, { name, rows: 1, columns: 1, numbers: [62.5] }]);
      expect(recording.channels[0]!.rate).toBe(62.5);
    },
  );

  test("stated by the user wins, and that is told", async () => {
    const { recording, codes } = await made([wave, { name: "fs", rows: 1, columns: 1, numbers: [62.5] }], {
      rate: 40,
    });
    expect(recording.channels[0]!.rate).toBe(40);
    expect(codes).toEqual(["clock-set-aside note"]);
  });

  test("times and rate that disagree: the times count, and it is told", async () => {
    const clock = { name: "time", rows: 500, columns: 1, numbers: ramp(500, 0.01) };
    const { recording, codes } = await made([
      wave,
      clock,
      { name: "fs", rows: 1, columns: 1, numbers: [120] },
    ]);
    expect(recording.channels[0]!.rate).toBe(100);
    expect(codes).toEqual(["rate-differs note"]);
  });

  test.each([
    { why: "neither", extra: [] },
    { why: "a rate of 0", extra: [{ name: "fs", rows: 1, columns: 1, numbers: [0] }] },
    { why: "a rate that is no number", extra: [{ name: "fs", rows: 1, columns: 1, numbers: [Number.NaN] }] },
    {
      why: "times that stand still",
      extra: [{ name: "t", rows: 500, columns: 1, numbers: new Array(500).fill(3) }],
    },
  ])("$why: asks for --rate", async ({ extra }) => {
    const { recording, codes } = await made([wave, ...extra]);
    expect(codes).toContain("rate-unknown fatal");
    expect(recording.problems.at(-1)!.expected).toMatch(/--rate/);
    expect(recording.channels).toEqual([]);
  });
});

test("numbers that are not finite are missing samples", async () => {
  const numbers = [1, Number.NaN, Number.POSITIVE_INFINITY, 4];
  const { byName } = await made([{ name: "PLETH", rows: 4, columns: 1, numbers }], { rate: 10 });
  expect(byName["PLETH"]).toEqual([1, Number.NaN, Number.NaN, 4]);
});

describe("other generations and other files", () => {
  const v73 = new TextEncoder().encode("MATLAB 7.3 MAT-file, Platform: made up".padEnd(600));
  const hdf5 = Uint8Array.from([0x89, 0x48, 0x44, 0x46, 0x0d, 0x0a, 0x1a, 0x0a, ...new Uint8Array(200)]);
  const level4 = Uint8Array.from([
    0x1e,
    0,
    0,
    0,
    3,
    0,
    0,
    0,
    10,
    0,
    0,
    0,
    0,
    0,
    0,
    0,
    4,
    0,
    0,
    0,
    118,
    97,
    108,
    0,
    ...new Uint8Array(60),
  ]);
  test.each([
    { why: "7.3", bytes: v73, code: "matlab-hdf5" },
    { why: "HDF5", bytes: hdf5, code: "matlab-hdf5" },
    { why: "level 4", bytes: level4, code: "matlab-level-4" },
    { why: "text", bytes: new TextEncoder().encode("1,2,3\n".repeat(50)), code: "not-matlab" },
    { why: "nothing", bytes: new Uint8Array(), code: "not-matlab" },
    { why: "a header alone", bytes: matFile([]), code: "no-signals" },
    {
      why: "one number",
      bytes: matFile([{ name: "fs", rows: 1, columns: 1, numbers: [1] }]),
      code: "no-signals",
    },
  ])("$why: $code", async ({ bytes, code }) => {
    const { recording } = await read(bytes);
    expect(recording.problems.at(-1)).toMatchObject({ code, weight: "fatal" });
    expect(recording.channels).toEqual([]);
  });

  test("a level 4 file with a WFDB header beside it is read by that header", async () => {
    const header = memorySource(
      "a.hea",
      new TextEncoder().encode("a 1 100 2\na.mat 16+24 10/NU 16 0 0 0 0 PLETH\n"),
    );
    const bytes = level4.slice(0, 28);
    bytes.set([10, 0, 0xec, 0xff], 24);
    const mat = memorySource("a.mat", bytes);
    const recording = await matlabReader.open(mat, memoryFolder([header, mat]));
    expect(recording.format).toBe("wfdb");
    expect([...(await walk(recording)).values[0]!]).toEqual([1, -2]);
  });
});

describe("damage", () => {
  const wave = { name: "PLETH", rows: 500, columns: 1, numbers: ramp(500), compressed: true };

  test("compressed numbers whose sum is wrong are told", async () => {
    const bytes = matFile([wave], (packed) => {
      const unpacked = unzlibSync(packed);
      unpacked[1000] = unpacked[1000]! ^ 1;
      const again = zlibSync(unpacked);
      // The sum of the numbers that were saved, behind numbers that were not.
      again.set(packed.subarray(-4), again.length - 4);
      return again;
    });
    const { codes } = await read(bytes, { rate: 100 });
    expect(codes).toContain("checksum-mismatch lost-part");
  });

  test.each([false, true])(
    "cut (compressed %s): what is there is read, the rest is missing",
    async (compressed) => {
      const numbers = ramp(500).map((n) => Math.sin(n * n));
      const bytes = matFile([{ ...wave, numbers, compressed }]);
      const { byName, codes } = await read(bytes.slice(0, Math.floor(bytes.length / 2)), { rate: 100 });
      const held = byName["PLETH"]!.findIndex(Number.isNaN);
      expect(held).toBeGreaterThan(150);
      expect(byName["PLETH"]).toHaveLength(500);
      expect(byName["PLETH"]!.slice(0, held)).toEqual(numbers.slice(0, held));
      expect(byName["PLETH"]!.slice(held).every(Number.isNaN)).toBe(true);
      expect(codes).toContain("file-cut lost-part");
      expect(codes).toContain("samples-missing lost-part");
    },
  );

  test.each([
    { why: "2^31 rows", rows: 2 ** 31 - 1, columns: 1, code: "size-absurd lost-part" },
    { why: "2^31 by 2^31", rows: 2 ** 31 - 1, columns: 2 ** 31 - 1, code: "too-many-columns lost-part" },
    { why: "a wide one", rows: 4000, columns: 2 ** 31 - 1, code: "too-many-columns lost-part" },
    { why: "a wider one", rows: 2 ** 30, columns: 2 ** 31 - 1, code: "too-many-columns lost-part" },
    { why: "negative sizes", rows: -500, columns: -1, code: "variable-damaged lost-part" },
    { why: "a million columns", rows: 1_000_000, columns: 1_000_000, code: "too-many-columns lost-part" },
  ])("$why end at once", async ({ rows, columns, code }) => {
    for (const compressed of [false, true]) {
      const { codes } = await read(matFile([{ ...wave, compressed, claim: [rows, columns] }]), { rate: 1e5 });
      expect(codes).toContain(code);
    }
  });
});
