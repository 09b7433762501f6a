import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createProblemLog } from "../problem-log.js";
import { parseHeader } from "./header.js";
import { parseRecordLine, parseSegmentLine, parseSignalLine, startedAt } from "./header-fields.js";

// Source of all expectations here: header(5) of the WFDB Applications Guide. Lines made up for the test.
describe("record line", () => {
  const left = {
    segments: null,
    rate: null,
    counterRate: null,
    counterBase: 0,
    frames: null,
    time: null,
    date: null,
  };
  test.each([
    { line: "r1 2", due: { ...left, name: "r1", signals: 2 } },
    { line: "r1 0", due: { ...left, name: "r1", signals: 0 } },
    { line: "r1\t2\t 360", due: { ...left, name: "r1", signals: 2, rate: 360 } },
    { line: "r1 2 0.9765625 10", due: { ...left, name: "r1", signals: 2, rate: 0.9765625, frames: 10 } },
    {
      line: "r1/3 2 500/25.5(-120.25) 4000 13:5:0 1/2/1999",
      due: {
        name: "r1",
        segments: 3,
        signals: 2,
        rate: 500,
        counterRate: 25.5,
        counterBase: -120.25,
        frames: 4000,
        time: "13:5:0",
        date: "1/2/1999",
      },
    },
    { line: "r1 2 500/25", due: { ...left, name: "r1", signals: 2, rate: 500, counterRate: 25 } },
    { line: "r1 2 360 0", due: { ...left, name: "r1", signals: 2, rate: 360, frames: null } },
    { line: "left hand 2 360", due: { ...left, name: "left hand", signals: 2, rate: 360 } },
    { line: "r1 2 fast 1e9", due: { ...left, name: "r1", signals: 2, rate: Number.NaN, frames: Number.NaN } },
  ])("$line", ({ line, due }) => {
    expect(parseRecordLine(line)).toEqual(due);
  });

  test.each(["", "r1", "r1 two", "2"])("'%s' is none", (line) => {
    expect(parseRecordLine(line)).toBeNull();
  });
});

describe("signal line", () => {
  const left = {
    samplesPerFrame: 1,
    skew: 0,
    offset: 0,
    gain: null,
    baseline: 0,
    unit: null,
    resolution: null,
    zero: 0,
    initial: 0,
    checksum: null,
    description: null,
    misread: null,
  };
  test.each([
    { line: "a.dat 16", due: { ...left, file: "a.dat", format: 16 } },
    {
      line: "a.dat 212x4:3+24 200.5(-7)/uV 12 1024 995 -22131 0 lead II, left",
      due: {
        ...left,
        file: "a.dat",
        format: 212,
        samplesPerFrame: 4,
        skew: 3,
        offset: 24,
        gain: 200.5,
        baseline: -7,
        unit: "uV",
        resolution: 12,
        zero: 1024,
        initial: 995,
        checksum: -22_131,
        description: "lead II, left",
      },
    },
    // Baseline and initial value default to the ADC zero.
    {
      line: "a.dat 16 100/mmHg 12 512",
      due: {
        ...left,
        file: "a.dat",
        format: 16,
        gain: 100,
        unit: "mmHg",
        resolution: 12,
        zero: 512,
        baseline: 512,
        initial: 512,
      },
    },
    // Gain 0 means that the gain is not known.
    { line: "a.dat 16 0/mV 12", due: { ...left, file: "a.dat", format: 16, unit: "mV", resolution: 12 } },
    { line: "a.dat 16 10//min", due: { ...left, file: "a.dat", format: 16, gain: 10, unit: "/min" } },
    { line: "a.dat 16 1.05e+04/NU", due: { ...left, file: "a.dat", format: 16, gain: 10_500, unit: "NU" } },
    { line: "a.dat 16 -2.5/mV", due: { ...left, file: "a.dat", format: 16, gain: -2.5, unit: "mV" } },
    { line: "my file.dat 16:2 5", due: { ...left, file: "my file.dat", format: 16, skew: 2, gain: 5 } },
    {
      line: "~ 0 50/mV 11 0 0 0 0 ABP",
      due: {
        ...left,
        file: "~",
        format: 0,
        gain: 50,
        unit: "mV",
        resolution: 11,
        checksum: 0,
        description: "ABP",
      },
    },
    // Text where a number was due.
    {
      line: "a.dat 16 pleth",
      due: { ...left, file: "a.dat", format: 16, misread: "pleth", description: "pleth" },
    },
    {
      line: "a.dat 16 5 12 pleth wave",
      due: {
        ...left,
        file: "a.dat",
        format: 16,
        gain: 5,
        resolution: 12,
        misread: "pleth",
        description: "pleth wave",
      },
    },
    {
      line: "a.dat 16 5(zero)/mV",
      due: { ...left, file: "a.dat", format: 16, gain: 5, unit: "mV", misread: "zero" },
    },
  ])("$line", ({ line, due }) => {
    expect(parseSignalLine(line)).toEqual(due);
  });

  test.each(["", "a.dat", "16", "a.dat x4"])("'%s' is none", (line) => {
    expect(parseSignalLine(line)).toBeNull();
  });
});

test("segment lines", () => {
  expect(parseSegmentLine("r1_0002 75000")).toEqual({ name: "r1_0002", frames: 75_000 });
  expect(parseSegmentLine("~ 1000")).toEqual({ name: "~", frames: 1000 });
  expect(parseSegmentLine("r1_0002")).toBeNull();
});

test.each([
  ["8:26:04", "26/10/1994", "1994-10-26T08:26:04"],
  ["13:5:0", "1/2/2020", "2020-02-01T13:05:00"],
  ["23:59:59.125", "29/02/2024", "2024-02-29T23:59:59.125"],
  ["8:26:04", null, null],
  [null, "26/10/1994", null],
  ["24:00:00", "26/10/1994", null],
  ["8:26:04", "31/02/1994", null],
  ["8:26:04", "26-10-1994", null],
])("time %s and date %s are %s", (time, date, due) => {
  expect(startedAt(time, date)).toBe(due);
});

describe("whole header", () => {
  const parse = (text: string) => {
    const log = createProblemLog();
    return { header: parseHeader(text, "r1.hea", log), problems: log.problems };
  };

  test.each(["\n", "\r\n", "\r", "\n\n", " \t\r\n"])("lines may end with %j", (end) => {
    const { header, problems } = parse(
      ["# before", "r1 2 125 10", "a.dat 16", "# between", "a.dat 16 5", "# after"].join(end),
    );
    expect(problems).toEqual([]);
    expect(header?.signals.map(({ gain }) => gain)).toEqual([null, 5]);
    expect(header?.comments).toEqual(["before", "between", "after"]);
  });

  test.each([
    { text: "", code: "record-line", weight: "fatal" },
    { text: "# nothing else", code: "record-line", weight: "fatal" },
    { text: "r1 1\na.dat", code: "signal-line", weight: "fatal" },
    { text: "r1/1 1\nseg", code: "segment-line", weight: "fatal" },
    { text: "r1 2000000\na.dat 16", code: "too-many-lines", weight: "fatal" },
    { text: "r1 1000000\na.dat 16", code: "signal-lines-missing", weight: "lost-part" },
    { text: "r1/9 1\nseg 5", code: "segment-lines-missing", weight: "lost-part" },
    { text: "r1 1\na.dat 16\nb.dat 16", code: "line-left-over", weight: "note" },
    { text: "other 1\na.dat 16", code: "record-name", weight: "note" },
    { text: "r1 1 125 100 25:00:00 1/1/2000\na.dat 16", code: "start-time", weight: "note" },
    { text: "r1 1 125 ten\na.dat 16", code: "length-unreadable", weight: "note" },
    { text: "r1 1\na.dat 16 x", code: "signal-field", weight: "lost-part" },
  ])("$code: told", ({ text, code, weight }) => {
    const { header, problems } = parse(text);
    expect(problems.map((problem) => `${problem.code} ${problem.weight}`)).toContain(`${code} ${weight}`);
    expect(header === null).toBe(weight === "fatal");
  });

  test("any text gives a header or a fatal problem", () => {
    const words = fc.constantFrom(
      "r1",
      "1",
      "2",
      "\n",
      " ",
      "a.dat",
      "16",
      "/",
      "x",
      ":",
      "+",
      "(",
      ")",
      "#",
      "~",
      "-",
      ".",
      "\t",
      "\0",
      "1e9",
    );
    fc.assert(
      fc.property(
        fc.array(words).map((parts) => parts.join("")),
        (text) => {
          const { header, problems } = parse(text);
          expect(header === null).toBe(problems.some(({ weight }) => weight === "fatal"));
        },
      ),
      { numRuns: 500 },
    );
  });
});
