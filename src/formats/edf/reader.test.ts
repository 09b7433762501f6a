import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { emptyFolder, memorySource } from "../testing/memory-source.js";
import { describeReader, type ReaderFixture } from "../testing/reader-contract.js";
import { walk } from "../testing/walk.js";
import { edfReader } from "./reader.js";
import { edfFile, type TestFile } from "./testing/edf-file.js";
import { openEdf as open, pleth, ramp, readEdf as read } from "./testing/read-edf.js";

const golden = (path: string) => readFileSync(new URL(`golden/${path}`, import.meta.url));

interface BiosigResult {
  readonly start: string;
  readonly channels: readonly { label: string; rate: number; unit: string; values: number[] }[];
  readonly notes: readonly { seconds: number; text: string; duration: number }[];
}

// Oracle: BioSig 3.0.1 (Debian biosig-tools 2.5.0), which prints six digits; see golden/made-by.md.
describe.each(["rates/input.edf", "rates-24-bit/input.bdf", "ecg-notes/input.edf"])("%s", (path) => {
  const expected = JSON.parse(golden(path.replace(/input.*/, "expected.json")).toString()) as BiosigResult;

  test("has the channels, rates and values BioSig reads from it", async () => {
    const recording = await open(golden(path));
    const { values } = await walk(recording);
    expect(recording.channels.map(({ name }) => name)).toEqual(expected.channels.map(({ label }) => label));
    for (const [n, channel] of expected.channels.entries()) {
      // BioSig wrote 1.0000004 s into the 24-bit file and shows the rate with six digits.
      expect(recording.channels[n]?.rate).toBeCloseTo(channel.rate, 3);
      expect(values[n]).toHaveLength(channel.values.length);
      for (const [k, value] of channel.values.entries()) {
        expect(Math.abs((values[n]?.[k] ?? Number.NaN) - value)).toBeLessThanOrEqual(
          5.1e-6 * Math.abs(value),
        );
      }
    }
  });
});

test("a duration that fills its field is not run together with the number of signals behind it", async () => {
  const recording = await open(golden("ecg-notes/input.edf"));
  expect(recording.channels[0]?.rate).toBe(64 / 0.25);
  expect(recording.channels[0]?.unit).toBe("uV");
  expect(recording.startedAt).toBe("2019-01-22T01:04:13");
});

test.each(["ecg-notes", "notes-only"])("%s has the notes BioSig reads from it", async (name) => {
  const expected = JSON.parse(golden(`${name}/expected.json`).toString()) as BiosigResult;
  const recording = await open(golden(`${name}/input.edf`));
  await walk(recording);
  const texts = recording.annotations.map(({ text }) => text.replace(/@@.*/, ""));
  expect(texts).toEqual(expected.notes.map(({ text }) => text.replace(/@@.*/, "")));
  for (const [n, note] of expected.notes.entries()) {
    expect(recording.annotations[n]?.time).toBeCloseTo(note.seconds, 2);
  }
  expect(recording.problems).toEqual([]);
});

// Oracle: golden/gaps/make.py, written from the EDF+ specification.
test("EDF+D: pauses are missing samples on the even grid, and are told", async () => {
  const expected = JSON.parse(golden("gaps/expected.json").toString()) as {
    start: string;
    channels: (number | null)[][];
    notes: [number, number | null, string][];
  };
  const recording = await open(golden("gaps/input.edf"));
  expect(recording.startedAt).toBe(expected.start);
  expect(recording.channels.map(({ unit, samples }) => [unit, samples])).toEqual([
    ["mNU", null],
    ["mm[Hg]", null],
  ]);
  const { values } = await walk(recording);
  for (const [c, channel] of expected.channels.entries()) {
    expect(values[c]).toHaveLength(channel.length);
    for (const [n, value] of channel.entries()) {
      if (value === null) expect(values[c]?.[n]).toBeNaN();
      else expect(values[c]?.[n]).toBeCloseTo(value, 9);
    }
  }
  const notes = recording.annotations.map(({ time, duration, text }) => [
    Number(time.toFixed(6)),
    duration,
    text,
  ]);
  expect(notes).toEqual(expected.notes);
  expect(recording.problems.map(({ code, weight }) => `${code} ${weight}`)).toEqual(["gap note", "gap note"]);
});

describe("scaling", () => {
  const one = async (signal: object, stored = [-1000, 0, 500, 1000]) =>
    read({ signals: [{ ...pleth, unit: "mV", ...signal }], body: [[stored]] });

  // physical = (stored - digMin) * (physMax - physMin) / (digMax - digMin) + physMin (Kemp 1992)
  test.each([
    { title: "plain", signal: { physical: [0, 4] }, values: [0, 2, 3, 4], codes: [] },
    { title: "inverted signal", signal: { physical: [4, 0] }, values: [4, 2, 1, 0], codes: [] },
    {
      title: "digital limits the wrong way round",
      signal: { physical: [0, 4], digital: [1000, -1000] },
      values: [4, 2, 1, 0],
      codes: ["digital-range-reversed"],
    },
    { title: "decimal comma", signal: { physical: ["0,0", "4,0"] }, values: [0, 2, 3, 4], codes: [] },
    {
      title: "equal physical limits",
      signal: { physical: [1, 1] },
      values: [-1000, 0, 500, 1000],
      codes: ["no-scale"],
    },
    {
      title: "equal digital limits",
      signal: { digital: [1, 1] },
      values: [-1000, 0, 500, 1000],
      codes: ["no-scale"],
    },
    {
      title: "no number",
      signal: { physical: ["high", 1] },
      values: [-1000, 0, 500, 1000],
      codes: ["no-scale"],
    },
    {
      title: "values outside the digital range",
      signal: { physical: [0, 2], digital: [-500, 500] },
      values: [-1, 1, 2, 3],
      codes: ["outside-digital-range"],
    },
  ])("$title", async ({ signal, values, codes }) => {
    const got = await one(signal);
    expect(got.values[0]).toEqual(values);
    expect(got.codes).toEqual(codes);
    expect(got.recording.channels[0]?.unit).toBe(codes[0] === "no-scale" ? "" : "mV");
  });
});

test.each([
  ["0.5", 8],
  ["0.300001", 4 / 0.300001],
  ["10", 0.4],
])("a record of %s s with 4 samples has %d samples/s", async (duration, rate) => {
  const { recording } = await read({ signals: [pleth], duration, body: [[ramp(0)]] });
  expect(recording.channels[0]?.rate).toBe(rate);
});

describe("start", () => {
  // EDF+ specification: clipping date 1985; "Startdate X" hides the date.
  test.each([
    ["02.03.85", "", "1985-03-02T10:20:30"],
    ["02.03.84", "", "2084-03-02T10:20:30"],
    ["02.03.93", "Startdate 02-MAR-2093 X X X", "2093-03-02T10:20:30"],
    ["01.01.85", "Startdate X X X X", null],
    ["29.02.23", "", null],
  ])("%s with recording field '%s' is %s", async (date, recording, startedAt) => {
    const got = await read({ signals: [pleth], date, recording, body: [[ramp(0)]] });
    expect(got.recording.startedAt).toBe(startedAt);
  });
});

describe("headers that lie", () => {
  const plain: TestFile = { signals: [pleth], body: [[ramp(0)], [ramp(1)], [ramp(2)]] };

  test.each<{ title: string; change: Partial<TestFile>; samples: number | undefined; codes: string[] }>([
    { title: "an honest one", change: {}, samples: 12, codes: [] },
    { title: "record count -1", change: { records: -1 }, samples: 12, codes: ["record-count"] },
    { title: "record count unreadable", change: { records: "many" }, samples: 12, codes: ["record-count"] },
    {
      title: "more records than there are",
      change: { records: 99999999 },
      samples: 12,
      codes: ["records-missing"],
    },
    {
      title: "fewer records than there are",
      change: { records: 2 },
      samples: 8,
      codes: ["records-beyond-count"],
    },
    { title: "header length wrong", change: { headerBytes: 256 }, samples: 12, codes: ["header-length"] },
    {
      title: "header length unreadable",
      change: { headerBytes: "?" },
      samples: 12,
      codes: ["header-length"],
    },
    { title: "duration 0", change: { duration: 0 }, samples: undefined, codes: ["record-duration"] },
    { title: "duration below 0", change: { duration: -1 }, samples: undefined, codes: ["record-duration"] },
    {
      title: "duration unreadable",
      change: { duration: "1 s" },
      samples: undefined,
      codes: ["record-duration"],
    },
    { title: "no signals", change: { signalCount: 0 }, samples: undefined, codes: ["signal-count"] },
    { title: "9999 signals", change: { signalCount: 9999 }, samples: undefined, codes: ["header-cut"] },
    { title: "another version", change: { version: "1" }, samples: undefined, codes: ["not-edf"] },
    { title: "a date that isn't", change: { date: "31.02.24" }, samples: 12, codes: ["start-date"] },
    { title: "a time that isn't", change: { time: "24.00.00" }, samples: 12, codes: ["start-time"] },
    {
      title: "samples per record beyond all bounds",
      change: { signals: [{ ...pleth, samples: "99999999" }], duration: 100, body: [], records: 3 },
      samples: 0,
      codes: ["records-missing"],
    },
    {
      title: "samples per record unreadable",
      change: { signals: [{ ...pleth, samples: "four" }] },
      samples: undefined,
      codes: ["samples-per-record"],
    },
    {
      title: "no samples at all",
      change: { signals: [{ ...pleth, samples: 0 }] },
      samples: undefined,
      codes: ["record-empty"],
    },
  ])("$title", async ({ change, samples, codes }) => {
    const got = await read({ ...plain, ...change });
    expect(got.recording.channels[0]?.samples).toBe(samples);
    expect(got.codes).toEqual(codes);
  });

  test("a longer header is believed where it alone fits the file", async () => {
    const good = edfFile({ ...plain, headerBytes: 768 });
    const bytes = Uint8Array.from([
      ...good.subarray(0, 512),
      ...new Array<number>(256).fill(32),
      ...good.subarray(512),
    ]);
    const recording = await open(bytes);
    expect([...((await walk(recording)).values[0] ?? [])]).toEqual([0, 1, 2].flatMap(ramp));
    expect(recording.problems).toMatchObject([{ code: "header-length", weight: "note" }]);
  });

  test("a record cut off is left out and told", async () => {
    const recording = await open(edfFile(plain).subarray(0, -3));
    expect(recording.channels[0]?.samples).toBe(8);
    expect(recording.problems.map(({ code }) => code)).toEqual(["records-missing"]);
    const unknown = await open(edfFile({ ...plain, records: -1 }).subarray(0, -3));
    expect(unknown.problems.map(({ code }) => code)).toEqual(["record-count", "record-cut"]);
  });

  test.each([
    ["\u00b5V", "uV"],
    ["\u00c2\u00b5V", "uV"],
    ["mmHg", "mm[Hg]"],
    ["bpm", "/min"],
  ])("unit %s is %s; bytes beyond ASCII are told", async (written, unit) => {
    const { recording, codes } = await read({ ...plain, signals: [{ ...pleth, unit: written }] });
    expect(recording.channels[0]?.unit).toBe(unit);
    expect(codes).toEqual(written.charCodeAt(0) > 127 ? ["header-not-ascii"] : []);
  });

  test("a stated rate is that of the fastest channel, the others keep their ratio", async () => {
    const signals = [pleth, { label: "SpO2", unit: "%", samples: 1 }];
    const { recording } = await read({ signals, duration: 0, body: [[ramp(0), [97]]] }, 100);
    expect(recording.channels.map(({ rate }) => rate)).toEqual([100, 25]);
  });

  test("a source that ends before its own size is told", async () => {
    const bytes = edfFile(plain);
    const short = { ...memorySource("a.edf", bytes.subarray(0, bytes.length - 5)), size: bytes.length };
    const recording = await edfReader.open(short, emptyFolder);
    const kept: number[] = [];
    for await (const block of recording.blocks()) kept.push(...block.values);
    for await (const _ of recording.blocks()) expect(_.values.length).toBeGreaterThan(0);
    expect(kept).toEqual([0, 1].flatMap(ramp));
    expect(recording.problems).toMatchObject([{ code: "unexpected-end", weight: "lost-part" }]);
  });
});

/** Whole records before a byte, times samples per record. */
function kept(from: number, recordBytes: number, samples: readonly number[]) {
  return (byte: number) => samples.map((count) => Math.floor((byte - from) / recordBytes) * count);
}

/** One record of 3 MiB of a fast channel beside a slow one: larger than any piece. */
function longRecords(): ReaderFixture {
  const fast = Array.from({ length: 800_000 }, (_, n) => (n % 4001) - 2000);
  const file: TestFile = {
    duration: 800,
    signals: [
      { label: "PPG", samples: fast.length },
      { label: "SpO2", unit: "%", samples: 800 },
    ],
    body: [],
    records: 3,
  };
  const head = edfFile(file);
  const record = new Int16Array(fast.length + 800);
  record.set(fast);
  const bytes = new Uint8Array(head.length + 3 * record.byteLength);
  bytes.set(head);
  for (let k = 0; k < 3; k++) bytes.set(new Uint8Array(record.buffer), head.length + k * record.byteLength);
  return { name: "long records", file: "long.edf", files: { "long.edf": bytes } };
}

test("a record larger than a piece is cut, its samples unchanged", async () => {
  const { files } = longRecords();
  const recording = await open(files["long.edf"] ?? new Uint8Array());
  const { values } = await walk(recording);
  expect(values.map(({ length }) => length)).toEqual([2_400_000, 2400]);
  let wrong = 0;
  for (let n = 0; n < 2_400_000; n++) if (values[0]?.[n] !== ((n % 800_000) % 4001) - 2000) wrong += 1;
  expect(wrong).toBe(0);
});

const fixture = (
  path: string,
  from: number,
  recordBytes: number,
  samples: readonly number[],
): ReaderFixture => {
  const file = path.replace("/", "-");
  const damage = [{ file, from, kept: kept(from, recordBytes, samples) }];
  return { name: path, file, files: { [file]: new Uint8Array(golden(path)) }, damage };
};

describeReader(
  "edf",
  edfReader,
  [
    fixture("rates/input.edf", 1280, 206, [100, 1, 1, 1]),
    fixture("rates-24-bit/input.bdf", 1280, 309, [100, 1, 1, 1]),
    fixture("ecg-notes/input.edf", 1024, 384, [64, 64]),
    fixture("gaps/input.edf", 1024, 184, [50, 2]),
    { ...fixture("notes-only/input.edf", 512, 800, []), channels: "none" },
  ],
  { large: longRecords },
);
