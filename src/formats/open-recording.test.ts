import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { openRecording, readers } from "./open-recording.js";
import type { ByteSource } from "./recording.js";
import { emptyFolder, memoryFolder, memorySource } from "./testing/memory-source.js";
import { expectWellFormed } from "./testing/reader-contract.js";
import { walk } from "./testing/walk.js";

const file = (path: string) => new Uint8Array(readFileSync(new URL(path, import.meta.url)));
const encode = (text: string) => new TextEncoder().encode(text);
const edf = file("edf/golden/rates/input.edf");
const fhir = file("fhir/golden/hl7-example/input.json");
const table = encode("time_s,pleth\n0.00,1\n0.01,2\n0.02,3\n0.03,4\n0.04,5\n");

const open = (name: string, bytes: Uint8Array) => openRecording(memorySource(name, bytes), emptyFolder);

describe("the reader is found", () => {
  test.each([
    { title: "EDF by its first bytes, whatever its name", name: "recording.bin", bytes: edf, format: "edf" },
    { title: "EDF under a table's name", name: "recording.csv", bytes: edf, format: "edf" },
    { title: "FHIR by name", name: "observation.json", bytes: fhir, format: "fhir" },
    { title: "FHIR by its first bytes", name: "observation", bytes: fhir, format: "fhir" },
    { title: "a table by name", name: "pleth.csv", bytes: table, format: "csv" },
    { title: "a table without an ending", name: "pleth", bytes: table, format: "csv" },
  ])("$title", async ({ name, bytes, format }) => {
    const recording = await open(name, bytes);
    expect(recording.format).toBe(format);
    expect(recording.channels.length).toBeGreaterThan(0);
    expect((await walk(recording)).blocks).toBeGreaterThan(0);
  });

  test("a WFDB record by its header, with its signal file beside it", async () => {
    const header = encode("r 1 100 4\nr.dat 16 200/mV 0 0 1 10 0 PLETH\n");
    const samples = new Uint8Array(Int16Array.of(1, 2, 3, 4).buffer);
    const sources = [memorySource("r.hea", header), memorySource("r.dat", samples)];
    const recording = await openRecording(sources[0] as ByteSource, memoryFolder(sources));
    expect(recording.format).toBe("wfdb");
    const { values } = await walk(recording);
    expect([...(values[0] ?? [])]).toEqual([0.005, 0.01, 0.015, 0.02]);
  });

  test("a .mat file that a WFDB header names is read as WFDB, gain and all", async () => {
    const header = encode("r 1 100 4\nr.mat 16+24 200/mV 0 0 1 10 0 PLETH\n");
    const samples = new Uint8Array(24 + 8);
    samples.set(new Uint8Array(Int16Array.of(1, 2, 3, 4).buffer), 24);
    const sources = [memorySource("r.mat", samples), memorySource("r.hea", header)];
    const recording = await openRecording(sources[0] as ByteSource, memoryFolder(sources));
    expect(recording.format).toBe("wfdb");
    expect([...((await walk(recording)).values[0] ?? [])]).toEqual([0.005, 0.01, 0.015, 0.02]);
  });

  test("a table that begins like an EDF version field goes on to the table reader", async () => {
    const rows = Array.from({ length: 50 }, (_, n) => `${n / 100}       ${n % 7}\n`).join("");
    const recording = await openRecording(memorySource("pleth.txt", encode(rows)), emptyFolder);
    expect(rows.startsWith("0       ")).toBe(true);
    expect(recording.format).toBe("csv");
  });

  test("every reader is listed once", () => {
    expect(new Set(readers.map(({ format }) => format)).size).toBe(readers.length);
  });
});

describe("what nobody knows", () => {
  test.each([
    {
      name: "photo.jpg",
      bytes: Uint8Array.of(0xff, 0xd8, 0xff, 0xe0),
      code: "unknown-format",
      found: /ff d8 ff e0/,
    },
    { name: "letter.doc", bytes: encode("Dear all"), code: "unknown-format", found: /"Dear all"/ },
    { name: "nothing.edf", bytes: new Uint8Array(), code: "empty-file", found: /empty/ },
  ])("$name is told with what can be read", async ({ name, bytes, code, found }) => {
    const recording = await open(name, bytes);
    expect(recording.channels).toEqual([]);
    expect(recording.problems).toMatchObject([{ code, weight: "fatal", where: name }]);
    expect(recording.problems[0]?.expected).toMatch(/EDF.*MATLAB.*FHIR.*WFDB.*\.csv/);
    expect(recording.problems[0]?.found).toMatch(found);
    expect((await walk(recording)).blocks).toBe(0);
  });

  test("a name that promises too much gives that reader's reason", async () => {
    const recording = await open("broken.edf", encode("not at all"));
    expect(recording.problems).toMatchObject([{ code: "header-cut", weight: "fatal" }]);
  });
});

test("where two readers know it and both fail, the first one's reason is given", async () => {
  const recording = await open("patient.csv", encode('{"resourceType": "Patient"}'));
  expect(recording.problems).toMatchObject([{ code: "not-observation", weight: "fatal" }]);
});

// Design bar "input": any byte string gives values or a clear problem, never a crash, a hang or a silent wrong value.
test("any bytes under any name give channels or a problem", async () => {
  const name = fc.constantFrom(
    "a.edf",
    "a.bdf",
    "a.hea",
    "a.dat",
    "a.mat",
    "a.csv",
    "a.txt",
    "a.json",
    "a",
    "",
  );
  const start = fc.constantFrom(
    "",
    "0       ",
    '{"resourceType":"Observation"',
    "r 1 100 4\n",
    "t,x\n1,2\n",
    "MATLAB 5.0",
  );
  await fc.assert(
    fc.asyncProperty(name, start, fc.uint8Array({ maxLength: 2000 }), async (called, begin, rest) => {
      const recording = await open(called, Uint8Array.from([...encode(begin), ...rest]));
      await walk(recording, { keep: 0, most: 1e8 });
      expectWellFormed(recording.problems);
      expect(recording.channels.length + recording.problems.length).toBeGreaterThan(0);
    }),
    { seed: 20_261_125, numRuns: 200 },
  );
});

test("a broken disk is not taken for a broken file", async () => {
  const broken = { name: "a.edf", size: 1000, read: () => Promise.reject(new Error("unreadable sector")) };
  await expect(openRecording(broken, emptyFolder)).rejects.toThrow("unreadable sector");
});
