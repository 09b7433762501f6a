import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { invalidCode, sampleFormats, samplesIn } from "./sample-format.js";
import { pack, plainFormats, readFiles, widthOf } from "./testing/wfdb-files.js";

const folder = new URL("golden/packing/", import.meta.url);
const json = (name: string) => JSON.parse(readFileSync(new URL(name, folder), "utf8"));
const expected = json("expected.json") as Record<string, number[][]>;
const biosig = json("biosig.json") as Record<string, number[][]>;
const record = (name: string) => ({
  [`${name}.hea`]: new Uint8Array(readFileSync(new URL(`${name}.hea`, folder))),
  [`${name}.dat`]: new Uint8Array(readFileSync(new URL(`${name}.dat`, folder))),
});
/** signal(5): the lowest code of each format but 8 stands for "no sample". */
const lowest = (format: number) => (format === 8 ? null : -(2 ** (widthOf(format) - 1)));

// Oracle: golden/packing/make.py, unpacked by numpy from the specification.
describe.each(Object.keys(expected))("%s", (name) => {
  test("has the numbers an independent decoder finds, and their checksums", async () => {
    const format = Number(name.split("_")[1]);
    const { values, codes } = await readFiles(record(name));
    const due = expected[name]!.map((all) => all.map((v) => (v === lowest(format) ? Number.NaN : v)));
    expect(values).toEqual(due);
    expect(codes).toEqual([]);
  });
});

// Oracle: BioSig, which prints six digits and knows no missing samples.
test.each(Object.keys(biosig))("%s has the numbers BioSig reads", async (name) => {
  const format = Number(name.split("_")[1]);
  const { values } = await readFiles(record(name));
  for (const [c, channel] of biosig[name]!.entries()) {
    expect(values[c]).toHaveLength(channel.length);
    for (const [n, due] of channel.entries()) {
      const value = values[c]![n]!;
      const stored = Number.isNaN(value) ? lowest(format)! : value;
      expect(Math.abs(stored - due)).toBeLessThanOrEqual(5.1e-6 * Math.abs(due));
    }
  }
});

test.each(plainFormats)(
  "format %d: any numbers, any frames, come back as they were packed",
  async (format) => {
    const top = 2 ** (widthOf(format) - 1);
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 4 }),
        fc.array(fc.integer({ min: -top, max: top - 1 }), { minLength: 1, maxLength: 300 }),
        fc.integer({ min: 0, max: 40 }),
        async (perFrame, numbers, offset) => {
          const total = perFrame.reduce((sum, n) => sum + n, 0);
          const frames = Math.ceil(numbers.length / total);
          const stored = Array.from({ length: frames * total }, (_, n) => numbers[n % numbers.length]!);
          const initial = 100;
          const lines = perFrame.map(
            (n, s) => `a.dat ${format}x${n}+${offset} 1(0)/adu 12 0 ${initial} 0 0 S${s}`,
          );
          // A checksum of 0 would be wrong most of the time; leave the field out by a header without it.
          const header = [
            `a ${perFrame.length} 100 ${frames}`,
            ...lines.map((l) => l.replace(/ 0 0 S.*/, "")),
          ];
          const packed = pack(format, stored);
          const bytes = new Uint8Array(offset + packed.length).fill(77);
          bytes.set(packed, offset);
          const { values } = await readFiles({ "a.hea": header.join("\n"), "a.dat": bytes });
          const due: number[][] = perFrame.map(() => []);
          const sums = perFrame.map(() => initial);
          let k = 0;
          for (let f = 0; f < frames; f++) {
            for (const [s, n] of perFrame.entries()) {
              for (let j = 0; j < n; j++, k++) {
                const value = stored[k]!;
                sums[s] = sums[s]! + value;
                due[s]!.push(format === 8 ? sums[s]! : value === lowest(format) ? Number.NaN : value);
              }
            }
          }
          expect(values).toEqual(due);
        },
      ),
      { numRuns: 40 },
    );
  },
);

test.each([
  // signal(5): a pair of format 212 takes 3 bytes, three samples of 310 and 311 take 4; what is left over
  // holds as many samples as have all their bits.
  { format: 212, counts: [0, 0, 1, 2, 2, 3, 4] },
  { format: 310, counts: [0, 0, 1, 1, 3, 3, 4] },
  { format: 311, counts: [0, 0, 1, 2, 3, 3, 4] },
  { format: 16, counts: [0, 0, 1, 1, 2, 2, 3] },
])("a file of format $format cut anywhere keeps its whole samples", ({ format, counts }) => {
  for (const [bytes, count] of counts.entries()) {
    expect(samplesIn(sampleFormats.get(format)!, bytes)).toBe(count);
  }
});

test("codes for missing samples are the lowest of each width", () => {
  expect(plainFormats.map(invalidCode)).toEqual(plainFormats.map(lowest));
  expect([508, 516, 524].map(invalidCode)).toEqual([-128, -32_768, -8_388_608]);
});
