import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { loadMarked } from "../../scripts/accuracy/recordings.js";
import { hertz, seconds } from "../model/units.js";
import { pairBeats } from "./agreement.js";
import { createEcgBeatFinder } from "./ecg-beats.js";

function find(values: Float64Array, rate: number, cut = values.length): number[] {
  const beats: number[] = [];
  const finder = createEcgBeatFinder(hertz(rate), (time) => beats.push(time));
  for (let i = 0; i < values.length; i += cut) finder.push(values.subarray(i, i + cut));
  finder.end();
  return beats;
}

const withEcg = (await loadMarked()).filter((record) => record.ecg !== null);

// Reference: R waves marked by hand in open recordings, see data/README.md.
describe.each(withEcg)("R waves of $name", ({ ecg, rWaves, ecgUnreadable }) => {
  const { values, rate } = ecg!;
  const beats = find(values, rate);

  test("are found within 150 ms, at most one in a hundred missed or extra", () => {
    const clear = (time: number) =>
      !ecgUnreadable.some(([from, to]) => time >= from - 0.15 && time <= to + 0.15);
    const marked = rWaves.filter(clear);
    const { matched, missed, extra } = pairBeats(marked, beats.filter(clear), seconds(0.15));
    expect(matched.length).toBeGreaterThan(10);
    expect(missed.length / marked.length).toBeLessThanOrEqual(0.01);
    expect(extra.length / marked.length).toBeLessThanOrEqual(0.01);
  });

  test("lie within 2 ms of the mark, 19 times of 20", () => {
    const { matched } = pairBeats(rWaves, beats, seconds(0.15));
    const off = matched.map(([r, t]) => Math.abs(beats[t]! - rWaves[r]!)).sort((a, b) => a - b);
    expect(off[Math.floor(0.95 * off.length)]).toBeLessThan(0.002);
  });

  test.each([1, 7, 250])("are the same, bit for bit, in blocks of %d", (cut) => {
    const part = values.subarray(0, 30 * rate);
    expect(find(part, rate, cut)).toEqual(find(part, rate));
  });
});

describe("any input", () => {
  test("gives rising times within the record, whatever is missing", () => {
    const sample = fc.oneof(
      { weight: 20, arbitrary: fc.double({ min: -5, max: 5 }) },
      { weight: 1, arbitrary: fc.constant(Number.NaN) },
    );
    fc.assert(
      fc.property(fc.array(sample, { maxLength: 2000 }), (samples) => {
        const beats = find(Float64Array.from(samples), 100);
        expect(beats.every((beat) => beat >= 0 && beat <= samples.length / 100)).toBe(true);
        expect(beats.every((beat, i) => i === 0 || beat > beats[i - 1]!)).toBe(true);
      }),
    );
  });

  test.each([0, 3.3])("that stands still at %d holds no beat", (level) => {
    expect(find(new Float64Array(3000).fill(level), 250)).toEqual([]);
  });
});
