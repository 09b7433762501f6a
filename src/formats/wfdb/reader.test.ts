import { existsSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { emptyFolder, memoryFolder, memorySource } from "../testing/memory-source.js";
import { walk } from "../testing/walk.js";
import { wfdbReader } from "./reader.js";
import { type Files, pack, readFiles } from "./testing/wfdb-files.js";

const ramp = (count: number, from = 1) => Array.from({ length: count }, (_, n) => from + n);
const nan = (count: number) => new Array<number>(count).fill(Number.NaN);
const plain = (header: string, files: Files = {}): Files => ({ "r.hea": header, ...files });

const recordings = new URL("../../../data/recordings/", import.meta.url);
async function openReal(name: string) {
  const source = (file: string) =>
    memorySource(file, new Uint8Array(readFileSync(new URL(file, recordings))));
  const folder = {
    open: async (file: string) => (existsSync(new URL(file, recordings)) ? source(file) : null),
  };
  return wfdbReader.open(source(name), folder);
}

describe("real recordings", () => {
  // Every checksum in the headers was written by the recorder's software or the packing script, not by this reader.
  test.each([
    ["041s.hea", 7],
    ["041s01.hea", 7],
    ["041s02.hea", 7],
    ["a103l.hea", 3],
    ["bidmc_01.hea", 2],
    ["red_ir.hea", 6],
  ])("%s: all checksums hold, nothing to tell", async (name, signals) => {
    const recording = await openReal(name);
    const { lengths } = await walk(recording, { keep: 0 });
    expect(recording.channels).toHaveLength(signals);
    expect(lengths).toEqual(recording.channels.map(({ samples }) => samples));
    expect(recording.problems).toEqual([]);
  });

  // Source: data/README.md and the header's own text.
  test("041s: rates, units and start of a record of two segments", async () => {
    const recording = await openReal("041s.hea");
    expect(recording.startedAt).toBe("1994-10-26T08:26:04");
    expect(recording.channels.map(({ name, rate, unit, samples }) => [name, rate, unit, samples])).toEqual([
      ["III", 500, "mV", 8000],
      ["I", 500, "mV", 8000],
      ["V", 500, "mV", 8000],
      ["ABP", 125, "mm[Hg]", 2000],
      ["PAP", 125, "mm[Hg]", 2000],
      ["PLETH", 125, "mV", 2000],
      ["RESP", 125, "mV", 2000],
    ]);
    const { values } = await walk(recording);
    // First stored numbers by the header: 168 at 2000/mV, and -242 at 20/mmHg from -1600.
    expect(values[0]![0]).toBe(168 / 2000);
    expect(values[3]![0]).toBe((-242 + 1600) / 20);
    // Sample 1000 is the first of the second segment, which states -715.
    expect(values[3]![1000]).toBe((-715 + 1600) / 20);
  });

  test("one wrong bit in a signal is told by its checksum, with the place", async () => {
    const dat = new Uint8Array(readFileSync(new URL("041s01.dat", recordings)));
    dat[9000] = dat[9000]! ^ 1;
    const hea = new Uint8Array(readFileSync(new URL("041s01.hea", recordings)));
    const { recording } = await readFiles({ "041s01.hea": hea, "041s01.dat": dat });
    expect(recording.problems).toHaveLength(1);
    expect(recording.problems[0]).toMatchObject({ code: "checksum-mismatch", weight: "lost-part" });
    expect(recording.problems[0]!.where).toMatch(/041s01\.hea, signal \w+/);
  });

  test.each([
    ["red_ir_24.dat", 6],
    ["a103l.mat", 3],
    ["041s01.dat", 7],
  ])("%s opened by itself finds its header", async (name, signals) => {
    const recording = await openReal(name);
    expect(recording.channels).toHaveLength(signals);
  });
});

describe("values", () => {
  test("are (stored - baseline) / gain, and NaN for the code of no sample", async () => {
    const { values, recording } = await readFiles(
      plain("r 1 100 4\nr.dat 16 20(-1600)/mmHg 12 7 0\n", {
        "r.dat": pack(16, [-1600, -1580, -32_768, 400]),
      }),
    );
    expect(values).toEqual([[0, 1, Number.NaN, 100]]);
    expect(recording.channels[0]).toMatchObject({ unit: "mm[Hg]", rate: 100, start: 0, samples: 4 });
  });

  test.each(["", " 0", " 0/mV"])(
    "without a gain ('%s') they are told to be uncalibrated and have no unit",
    async (gain) => {
      const { values, recording, codes } = await readFiles(
        plain(`r 1 100 2\nr.dat 16${gain}\n`, { "r.dat": pack(16, [200, 100]) }),
      );
      expect(values).toEqual([[1, 0.5]]);
      expect(codes).toContain("uncalibrated note");
      expect(recording.channels[0]!.unit).toBe("");
    },
  );

  test("skew moves the start of a signal, not its samples", async () => {
    const { values, recording } = await readFiles(
      plain("r 2 50 3\nr.dat 16 1\nr.dat 16:5 1\n", { "r.dat": pack(16, [1, 2, 3, 4, 5, 6]) }),
    );
    expect(recording.channels.map(({ start }) => start)).toEqual([0, -0.1]);
    expect(values).toEqual([
      [1, 3, 5],
      [2, 4, 6],
    ]);
  });

  test("format 8 starts from each signal's own initial value", async () => {
    const { values } = await readFiles(
      plain("r 2 50 3\nr.dat 8 1 8 0 1000\nr.dat 8 1 8 50\n", { "r.dat": pack(8, [1, -1, 127, -128, 0, 3]) }),
    );
    // The second has no initial value: the ADC zero, which is its baseline too.
    expect(values).toEqual([
      [1001, 1128, 1128],
      [-1, -129, -126],
    ]);
  });

  test("the user's rate overrides the header's, for all samples of a frame", async () => {
    const { recording } = await readFiles(plain("r 1 100 1\nr.dat 16x2 1\n", { "r.dat": pack(16, [1, 2]) }), {
      rate: 30,
    });
    expect(recording.channels[0]!.rate).toBe(60);
  });

  test("what the user states of a signal counts", async () => {
    const { recording } = await readFiles(
      plain("r 1 100 1\nr.dat 16 1 16 0 0 0 0 CH7\n", { "r.dat": pack(16, [1]) }),
      { kinds: { CH7: "infrared" } },
    );
    expect(recording.channels[0]).toMatchObject({
      kind: "raw-light",
      colour: "infrared",
      because: "stated by the user",
    });
  });
});

describe("checksums", () => {
  // signal(5), header(5): the 16-bit sum of all samples, those before sample 0 and missing ones included.
  test.each([
    { sum: -32_768 + 5, why: "the code as stored" },
    { sum: 5 - 2048, why: "the format's own code" },
    { sum: 5 - 2048 + 65_536, why: "written without wrapping" },
  ])("a missing sample may count as $why", async ({ sum }) => {
    const { codes } = await readFiles(
      plain(`r 1 100 3\nr.dat 212 1 12 0 0 ${sum} 0 A\n`, { "r.dat": pack(212, [2, -2048, 3]) }),
    );
    expect(codes.filter((code) => code.startsWith("checksum"))).toEqual([]);
  });

  test("are not judged on part of the samples", async () => {
    const files = plain("r 2 100 9\nr.dat 16 1 16 0 0 1 0 A\nr.dat 16 1 16 0 0 1 0 B\n", {
      "r.dat": pack(16, ramp(8)),
    });
    expect((await readFiles(files)).codes).toEqual(["file-short lost-part"]);
    const whole = plain("r 2 100 4\nr.dat 16 1 16 0 0 1 0 A\nr.dat 16 1 16 0 0 1 0 B\n", {
      "r.dat": pack(16, ramp(8)),
    });
    expect((await readFiles(whole, {}, [1])).codes).toEqual(["checksum-mismatch lost-part"]);
    expect((await readFiles(whole)).codes).toHaveLength(2);
  });
});

describe("files that don't fit the header", () => {
  const two = "r 2 100 4\na.dat 16 1 16 0 0\nb.dat 16 1 16 0 0\n";

  test("a missing file is a gap of the stated length; the others are read", async () => {
    const { values, codes } = await readFiles(plain(two, { "a.dat": pack(16, ramp(4)) }));
    expect(values).toEqual([ramp(4), nan(4)]);
    expect(codes).toContain("file-missing lost-part");
  });

  test("a short file is filled to the stated length", async () => {
    const { values, recording } = await readFiles(
      plain(two, { "a.dat": pack(16, ramp(4)), "b.dat": pack(16, ramp(2)).slice(0, 3) }),
    );
    expect(values).toEqual([ramp(4), [1, ...nan(3)]]);
    expect(recording.problems).toMatchObject([
      { code: "file-short", where: "r.hea, file b.dat", found: "1; the rest is missing" },
    ]);
  });

  test("a long file is read as far as stated", async () => {
    const { values, codes } = await readFiles(
      plain(two, { "a.dat": pack(16, ramp(9)), "b.dat": pack(16, ramp(4)) }),
    );
    expect(values).toEqual([ramp(4), ramp(4)]);
    expect(codes).toEqual(["file-longer note"]);
  });

  test("without a stated length the longest file counts", async () => {
    const { values, codes } = await readFiles(
      plain("r 2 100\na.dat 16 1\nb.dat 16 1\n", { "a.dat": pack(16, ramp(5)), "b.dat": pack(16, ramp(3)) }),
    );
    expect(values).toEqual([ramp(5), [...ramp(3), ...nan(2)]]);
    expect(codes).toContain("file-short lost-part");
  });

  test.each([
    { name: "../../x.dat", code: "path-refused" },
    { name: "/etc/passwd", code: "path-refused" },
    { name: "..\\x.dat", code: "path-refused" },
    { name: "c:x.dat", code: "path-refused" },
    { name: "..", code: "path-refused" },
    { name: "-", code: "file-missing" },
  ])("$name: $code, and the folder is not asked for anything outside", async ({ name, code }) => {
    const asked: string[] = [];
    const folder = {
      open: async (wanted: string) => {
        asked.push(wanted);
        return null;
      },
    };
    const text = new TextEncoder().encode(`r 1 100 4\n${name} 16 1\n`);
    const recording = await wfdbReader.open(memorySource("r.hea", text), folder);
    const codes = recording.problems.map((problem) => `${problem.code} ${problem.weight}`);
    expect(codes).toContain(`${code} lost-part`);
    expect(codes).toContain("no-samples fatal");
    expect(asked.filter((wanted) => /[/\\:]|^\.\.?$/.test(wanted))).toEqual([]);
  });

  test.each([
    { why: "unknown format", lines: ["a.dat 17 1", "b.dat 16 1"], code: "format-unknown" },
    { why: "two formats in one file", lines: ["a.dat 16 1", "a.dat 61 1"], code: "mixed-formats" },
    { why: "no samples in a frame", lines: ["a.dat 16x0 1", "b.dat 16 1"], code: "frame-too-large" },
    {
      why: "a million samples in a frame",
      lines: ["a.dat 16x1000000 1", "b.dat 16 1"],
      code: "frame-too-large",
    },
    {
      why: "one file in two places",
      lines: ["a.dat 16 1", "b.dat 16 1", "a.dat 16 1"],
      code: "signals-apart",
    },
    { why: "two offsets for one file", lines: ["a.dat 16 1", "a.dat 16+2 1"], code: "mixed-offsets" },
  ])("$why: $code", async ({ lines, code }) => {
    const { codes } = await readFiles(
      plain([`r ${lines.length} 100 2`, ...lines].join("\n"), {
        "a.dat": pack(16, ramp(4)),
        "b.dat": pack(16, ramp(2)),
      }),
    );
    expect(codes.join()).toContain(code);
  });
});

describe("absurd numbers end at once", () => {
  const dat = { "r.dat": pack(16, ramp(10)) };
  test.each([
    { header: "r 1 100 1000000000000\nr.dat 16 1\n", code: "length-absurd lost-part", samples: 10 },
    { header: "r 1 1e6 100000000000\nr.dat 16 1\n", code: "length-absurd lost-part", samples: 10 },
    { header: "r 1 0 10\nr.dat 16 1\n", code: "rate-invalid fatal", samples: null },
    { header: "r 1 -5 10\nr.dat 16 1\n", code: "rate-invalid fatal", samples: null },
    { header: "r 1 nan 10\nr.dat 16 1\n", code: "rate-invalid fatal", samples: null },
    { header: "r 1 1e300 10\nr.dat 16 1\n", code: "rate-invalid fatal", samples: null },
    { header: "r 1 100 10\nr.dat 16+999999999999 1\n", code: "no-samples fatal", samples: 10 },
    { header: "r 1\nr.dat 16 1\n", code: "rate-assumed note", samples: 10 },
    { header: "r/2 1 100\n~ 999999999999\n~ 1\n", code: "no-samples fatal", samples: null },
    { header: "r/2 1 100\ns 10\ns 999999999999\n", code: "length-absurd lost-part", samples: 10 },
    { header: "r/2 1 1\nt 10\n~ 691200\n", code: "gap-too-long lost-part", samples: 10 },
    { header: "r/2 1 100\ns 10\n~ 999999999999\n", code: "gap-too-long lost-part", samples: 10 },
  ])("$header", async ({ header, code, samples }) => {
    const { recording, codes } = await readFiles(
      plain(header, { ...dat, "s.hea": "s 1 100 10\nr.dat 16 1\n", "t.hea": "t 1 1 10\nr.dat 16 1\n" }),
    );
    expect(codes).toContain(code);
    expect(recording.channels[0]?.samples ?? null).toBe(samples);
  });
});

test("a silence of six days between segments is a gap like any other", async () => {
  const files = plain("r/3 1 1\nt 2\n~ 518400\nt 2\n", {
    "t.hea": "t 1 1 2\nt.dat 16 1 16 0 0 3 0 PLETH\n",
    "t.dat": pack(16, [1, 2]),
  });
  const { values, codes } = await readFiles(files);
  expect(values[0]).toHaveLength(518_404);
  expect([...values[0]!.slice(0, 3), ...values[0]!.slice(-3)]).toEqual([1, 2, Number.NaN, Number.NaN, 1, 2]);
  expect(codes).toEqual([]);
});

describe("segments", () => {
  const segment = (name: string, lines: string, stored: number[]): Files => ({
    [`${name}.hea`]: `${name} ${lines.split("\n").length} 100\n${lines}\n`,
    [`${name}.dat`]: pack(16, stored),
  });

  test("follow each other with their own gains; a null segment and a missing one are gaps", async () => {
    const { values, recording } = await readFiles({
      "r.hea": "r/4 1 100 11\na 3\n~ 2\nlost 4\nb 2\n",
      ...segment("a", "a.dat 16 1/mV 16 0 0 6 0 PLETH", [1, 2, 3]),
      ...segment("b", "b.dat 16 10/mV 16 0 0 30 0 PLETH", [10, 20]),
    });
    expect(values).toEqual([[1, 2, 3, ...nan(6), 1, 2]]);
    expect(recording.channels[0]!.samples).toBe(11);
    expect(recording.problems).toMatchObject([{ code: "file-missing", where: "r.hea, segment 2 lost" }]);
  });

  // header(5): the first segment of a variable layout has length 0 and lists all signals; others hold some of them.
  test("of variable layout: signals are told apart by name, absent ones are gaps", async () => {
    const { values, recording, codes } = await readFiles({
      "r.hea": "r/4 3 100 6\nlayout 0\na 2\n~ 1\nb 3\n",
      "layout.hea":
        "layout 3 100 0\n~ 0 1/mV 0 0 0 0 0 ECG\n~ 0 1/mmHg 0 0 0 0 0 ABP\n~ 0x2 1/NU 0 0 0 0 0 PLETH\n",
      ...segment("a", "a.dat 16 1/mmHg 16 0 0 4 0 ABP\na.dat 16 1/mV 16 0 0 6 0 ECG", [1, 2, 3, 4]),
      ...segment("b", "b.dat 16x2 2/NU 16 0 0 21 0 PLETH", [1, 2, 3, 4, 5, 6]),
    });
    expect(recording.channels.map(({ name, rate }) => [name, rate])).toEqual([
      ["ECG", 100],
      ["ABP", 100],
      ["PLETH", 200],
    ]);
    expect(values).toEqual([
      [2, 4, ...nan(4)],
      [1, 3, ...nan(4)],
      [...nan(6), 0.5, 1, 1.5, 2, 2.5, 3],
    ]);
    expect(codes).toEqual([]);
  });

  test.each([
    { why: "another unit", line: "b.dat 16 1/uV 16 0 0", code: "unit-differs lost-part" },
    { why: "another rate", line: "b.dat 16x2 1/mV 16 0 0", code: "rate-differs lost-part" },
    {
      why: "a signal the record lacks",
      line: "b.dat 16 1/mV 16 0 0 0 0 Y",
      code: "signal-not-in-record lost-part",
    },
  ])("$why is left out, not mixed in", async ({ line, code }) => {
    const { values, codes } = await readFiles({
      "r.hea": "r/2 1 100\na 2\nb 2\n",
      ...segment("a", "a.dat 16 1/mV 16 0 0", [1, 2]),
      ...segment("b", line, [3, 4]),
    });
    expect(values).toEqual([[1, 2, Number.NaN, Number.NaN]]);
    expect(codes).toContain(code);
  });

  test("that are themselves lists, or the record itself, are refused", async () => {
    const { values, codes } = await readFiles({
      "r.hea": "r/2 1 100\na 2\nr 2\n",
      ...segment("a", "a.dat 16 1/mV 16 0 0", [1, 2]),
    });
    expect(values).toEqual([[1, 2, Number.NaN, Number.NaN]]);
    expect(codes).toContain("segment-nested lost-part");
  });

  test("of another length than stated keep the record's time", async () => {
    const { values, codes } = await readFiles({
      "r.hea": "r/2 1 100 7\na 3\nb 2\n",
      "a.hea": "a 1 100 2\na.dat 16 1/mV\n",
      "a.dat": pack(16, [1, 2]),
      "b.hea": "b 1 100 3\nb.dat 16 1/mV\n",
      "b.dat": pack(16, [4, 5, 6]),
    });
    expect(values).toEqual([[1, 2, Number.NaN, 4, 5]]);
    expect(codes.toSorted()).toEqual([
      "file-longer note",
      "file-short lost-part",
      "kind-assumed note",
      "length-differs note",
      "segment-length note",
      "segment-length note",
    ]);
  });
});

describe("what cannot be opened", () => {
  test.each(["r.dat", "r.mat"])("%s without a header says what is missing", async (name) => {
    const recording = await wfdbReader.open(memorySource(name, pack(16, ramp(9))), emptyFolder);
    expect(recording.problems).toMatchObject([
      { code: "header-missing", weight: "fatal", expected: "a header r.hea beside it that names it" },
    ]);
    expect(recording.channels).toEqual([]);
  });

  test("a header beside it that names other files is not its header", async () => {
    const other = memorySource("r.hea", new TextEncoder().encode("r 1 100 2\nother.dat 16 1\n"));
    const recording = await wfdbReader.open(memorySource("r.dat", pack(16, [1])), memoryFolder([other]));
    expect(recording.problems).toMatchObject([{ code: "header-missing" }]);
  });

  test("a record of notes alone has no channels and is not at fault", async () => {
    const { recording, codes } = await readFiles({ "r.hea": "r 0 360\n" });
    expect(recording.channels).toEqual([]);
    expect(codes).toEqual([]);
  });
});
