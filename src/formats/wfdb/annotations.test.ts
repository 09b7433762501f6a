import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readFiles } from "./testing/wfdb-files.js";

const folder = new URL("golden/annotations/", import.meta.url);
const bytes = (name: string) => new Uint8Array(readFileSync(new URL(name, folder)));
const json = (name: string) => JSON.parse(readFileSync(new URL(name, folder), "utf8"));
const record = { "beats.hea": "beats 0 360 210000\n" };
const pair = (code: number, step: number) => [((code << 10) | step) & 255, (code << 2) | (step >> 8)];
const atr = (...pairs: number[][]) => Uint8Array.from([...pairs.flat(), 0, 0]);

test("times, kinds and texts are those that were written", async () => {
  const { recording, codes } = await readFiles({ ...record, "beats.atr": bytes("beats.atr") });
  const expected = json("expected.json") as { tick: number; kind: string; mnemonic: string; text: string }[];
  expect(recording.annotations).toEqual(
    expected.map(({ tick, kind, mnemonic, text }) => ({
      time: tick / 360,
      duration: null,
      kind,
      text: kind === "note" ? text : text === "" ? mnemonic : `${mnemonic} ${text}`,
    })),
  );
  expect(codes).toEqual([]);
});

// Oracle: BioSig, which prints microseconds and gives the first sample the time of one interval before 0.
test("times are those BioSig reads", async () => {
  const { recording } = await readFiles({ ...record, "beats.atr": bytes("beats.atr") });
  const expected = json("biosig.json") as [number, number][];
  expect(recording.annotations).toHaveLength(expected.length);
  for (const [n, [, time]] of expected.entries()) {
    expect(Math.abs(recording.annotations[n]!.time - 1 / 360 - time)).toBeLessThanOrEqual(1e-6);
  }
});

test("a file with its own clock and its own codes is read by them, and its definitions are no notes", async () => {
  const { recording } = await readFiles({ ...record, "beats.ppg": bytes("beats.ppg") });
  expect(recording.annotations).toEqual([
    { time: 0.5, duration: null, kind: "other", text: "PP" },
    { time: 1.333, duration: null, kind: "other", text: "PP" },
    { time: 1.334, duration: null, kind: "beat", text: "N ends" },
  ]);
});

test("beats of a second annotator stay as remarks, so that no beat counts twice", async () => {
  const { recording, codes } = await readFiles({
    ...record,
    "beats.atr": atr(pair(1, 360)),
    "beats.qrs": atr(pair(1, 361)),
  });
  expect(recording.annotations.map(({ kind, text }) => `${kind} ${text}`)).toEqual([
    "beat N",
    "other N (qrs)",
  ]);
  expect(codes).toEqual(["beats-twice note"]);
});

test("a file in another order comes out in order of time", async () => {
  const back = [...pair(59, 0), 255, 255, 255, 255];
  const { recording } = await readFiles({ ...record, "beats.atr": atr(pair(1, 360), [...back], pair(5, 0)) });
  expect(recording.annotations.map(({ text }) => text)).toEqual(["V", "N"]);
});

describe("damage", () => {
  test.each([
    {
      why: "cut after a pair",
      file: bytes("beats.atr").slice(0, 8),
      code: "annotations-cut lost-part",
      count: 2,
    },
    {
      why: "cut in a pair",
      file: bytes("beats.atr").slice(0, 9),
      code: "annotations-cut lost-part",
      count: 2,
    },
    {
      why: "cut in a text",
      file: bytes("beats.atr").slice(0, 5),
      code: "annotations-cut lost-part",
      count: 1,
    },
    { why: "empty", file: new Uint8Array(), code: "annotations-cut lost-part", count: 0 },
    { why: "unknown codes", file: atr(pair(55, 1), pair(1, 1)), code: "annotation-code lost-part", count: 2 },
    {
      why: "text of nothing",
      file: atr(pair(63, 2), [65, 66], pair(1, 1)),
      code: "annotation-code lost-part",
      count: 1,
    },
    {
      why: "a time after the end",
      file: atr([...pair(59, 0), 255, 127, 0, 0], pair(1, 0)),
      code: "annotation-outside lost-part",
      count: 1,
    },
  ])("$why: $code", async ({ file, code, count }) => {
    const { recording, codes } = await readFiles({ ...record, "beats.atr": file });
    expect(codes).toContain(code);
    expect(recording.annotations).toHaveLength(count);
  });

  // annot(5): AHA entries have 16 bytes, the second a letter, the seventh and eighth a serial number.
  test("AHA format is named, not misread", async () => {
    const entry = (letter: string, serial: number) => [
      0,
      letter.charCodeAt(0),
      0,
      0,
      90,
      1,
      serial,
      0,
      0,
      0,
      0,
      0,
      0,
      0,
      0,
      0,
    ];
    const file = Uint8Array.from([...entry("N", 1), ...entry("V", 2)]);
    const { recording, codes } = await readFiles({ ...record, "beats.atr": file });
    expect(codes).toEqual(["annotation-format lost-part"]);
    expect(recording.annotations).toEqual([]);
  });
});
