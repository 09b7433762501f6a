/** What is written comes back through the readers, which are themselves held against independent programs. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Annotation, seconds } from "../model/index.js";
import { writeCsv } from "./csv/write-csv.js";
import { writeEdf } from "./edf/write-edf.js";
import { openRecording } from "./open-recording.js";
import type { OutgoingFile, OutgoingRecording } from "./outgoing.js";
import { memoryFolder, memorySource } from "./testing/memory-source.js";
import { walk } from "./testing/walk.js";
import { writeWfdb } from "./wfdb/write-wfdb.js";

const writers = { csv: writeCsv, edf: writeEdf, wfdb: writeWfdb };

function bytesOf({ pieces }: OutgoingFile): Uint8Array {
  const all = [...pieces];
  const bytes = new Uint8Array(all.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of all) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}

async function readBack(files: readonly OutgoingFile[]) {
  const sources = files.map((file) => memorySource(file.name, bytesOf(file)));
  const recording = await openRecording(sources[0]!, memoryFolder(sources));
  const { values } = await walk(recording);
  return { recording, values: values.map((all) => [...all]) };
}

const note = (time: number, text: string): Annotation => ({
  time: seconds(time),
  duration: null,
  kind: "note",
  text,
});

function outgoing(
  channels: readonly (readonly number[])[],
  annotations: readonly Annotation[] = [],
): OutgoingRecording {
  return {
    name: "made",
    rate: 50,
    origin: "made for a test",
    annotations,
    channels: channels.map((values, c) => ({
      name: c % 2 === 0 ? `IR left finger ${c}` : `Red left finger ${c}`,
      label: c % 2 === 0 ? `IR ${c}` : `Red ${c}`,
      unit: "count",
      step: 1,
      values: Float64Array.from(values),
    })),
  };
}

/** Whole seconds of whole counts, as a converter gives them. */
const counts = fc
  .record({
    low: fc.integer({ min: -200_000, max: 200_000 }),
    seconds: fc.integer({ min: 2, max: 4 }),
    seed: fc.infiniteStream(fc.integer({ min: 0, max: 60_000 })),
  })
  .map(({ low, seconds: lasts, seed }) =>
    Array.from({ length: 50 * lasts }, () => low + (seed.next().value as number)),
  );

describe.each(Object.entries(writers))("%s", (format, write) => {
  test("whole counts within 16 bits come back as they were", async () => {
    await fc.assert(
      fc.asyncProperty(counts, async (values) => {
        const { recording, values: read } = await readBack(write(outgoing([values])));
        expect(read[0]).toEqual(values);
        expect(recording.channels[0]).toMatchObject({ kind: "raw-light", colour: "infrared", rate: 50 });
        expect(recording.problems.filter(({ weight }) => weight !== "note")).toEqual([]);
      }),
      { numRuns: 30 },
    );
  });

  test("channels keep their order, colour and unit, notes their time", async () => {
    const ramp = Array.from({ length: 200 }, (_, n) => 130_000 + 7 * n);
    const down = ramp.map((value) => 300_000 - value);
    const notes = [note(0.5, "cuff up, fast"), note(3, 'cuff "down"; é')];
    const { recording, values } = await readBack(write(outgoing([ramp, down], notes)));
    expect(values.slice(0, 2)).toEqual([ramp, down]);
    expect(recording.channels.slice(0, 2).map(({ colour }) => colour)).toEqual(["infrared", "red"]);
    const kept = recording.annotations.filter(({ kind }) => kind === "note");
    expect(kept.map(({ text }) => text)).toEqual(notes.map(({ text }) => text));
    for (const [k, { time }] of kept.entries()) expect(time).toBeCloseTo(notes[k]!.time, 6);
    expect(recording.format).toBe(format);
  });

  test("fractions come back within half their step", async () => {
    const values = Array.from({ length: 100 }, (_, n) => 0.3 + 0.25 * Math.sin(n / 7));
    const [channel] = outgoing([values]).channels;
    const recording = { ...outgoing([]), channels: [{ ...channel!, step: 1e-4 }] };
    const { values: read } = await readBack(write(recording));
    const worst = Math.max(...read[0]!.map((value, n) => Math.abs(value - values[n]!)));
    expect(worst).toBeLessThanOrEqual(0.5001e-4);
  });

  test.each([
    ["not-finite", outgoing([[1, Number.NaN, ...Array(48).fill(1)]])],
    ["uneven-lengths", outgoing([Array(50).fill(1), Array(100).fill(1)])],
    ["bad-rate", { ...outgoing([Array(50).fill(1)]), rate: 62.5 }],
  ])("refuses %s", (code, recording) => {
    expect(() => [...write(recording)]).toThrow(new RegExp(`^${code}`));
  });
});

test("an EDF channel wider than 16 bits keeps 1 part in 65 535 of its range", async () => {
  const values = Array.from({ length: 100 }, (_, n) => n * 2621);
  const { values: read } = await readBack(writeEdf(outgoing([values])));
  const worst = Math.max(...read[0]!.map((value, n) => Math.abs(value - values[n]!)));
  expect(worst).toBeLessThanOrEqual((99 * 2621) / 65535 / 2 + 0.01);
});

test("EDF refuses a recording that ends within a second", () => {
  expect(() => writeEdf(outgoing([Array(75).fill(1)]))).toThrow(/^uneven-end/);
});
