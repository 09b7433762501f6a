/**
 * Beats against hand marks (data/README.md: one reader, ±150 ms) and against synthetic pulses of
 * the marked recordings' average shapes. The fuller tables come from the accuracy run.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { scoreBeats, scoreRates } from "../../scripts/accuracy/beats.js";
import { detectBeats } from "../../scripts/accuracy/detect-beats.js";
import { loadMarked } from "../../scripts/accuracy/recordings.js";
import { createGauss, createRandom } from "../../scripts/accuracy/seeded-random.js";
import { averageShape, scoreSynthetic, stringBeats } from "../../scripts/accuracy/synthetic-beats.js";
import type { Beat } from "../model/beat.js";
import { type Hertz, hertz } from "../model/units.js";
import { createBeatFinder } from "./beat-finder.js";
import { createConditioner } from "./conditioner.js";
import type { InnerSink } from "./inner-stream.js";

const marked = await loadMarked();
const named = (name: string) => marked.find((recording) => recording.name === name)!;
const shapes = marked.map(averageShape);

interface Found {
  readonly beat: Beat;
  /** Raw samples pushed when the beat was told, in seconds. */
  readonly told: number;
}

function find(values: Float64Array, rate: number, cut = values.length, level = false): readonly Found[] {
  const found: Found[] = [];
  let pushed = 0;
  let finder: InnerSink;
  const conditioner = createConditioner(
    { rate: hertz(rate), polarity: "systole-up" },
    { take: (block) => finder.take(block), end: () => finder.end() },
  );
  finder = createBeatFinder({ innerRate: conditioner.innerRate as Hertz, level }, (beat) => {
    found.push({ beat, told: pushed / rate });
  });
  for (let i = 0; i < values.length; i += cut) {
    pushed = Math.min(values.length, i + cut);
    conditioner.push(values.subarray(i, pushed));
  }
  conditioner.end();
  return found;
}

describe("marked recordings", () => {
  const { rows, pooled } = scoreBeats(marked);

  test("pooled F1 is at least 0.99", () => {
    expect(pooled.hits).toBeGreaterThan(3000);
    expect(pooled.f1).toBeGreaterThanOrEqual(0.99);
  });

  test.each(rows)("$name: F1 at least 0.97, or 2 errors under 50 beats", ({ hits, extra, missed, f1 }) => {
    if (hits + missed < 50) expect(extra + missed).toBeLessThanOrEqual(2);
    else expect(f1).toBeGreaterThanOrEqual(0.97);
  });

  test.each(rows)("$name: peaks lie within 6 ms of the marks on average", ({ peakError }) => {
    expect(Math.abs(peakError!.mean)).toBeLessThan(6);
  });

  // The long recordings at three rates; all rates and recordings are in the accuracy run.
  const some = marked.filter(({ name }) => /^(041s|data|noisy|P22)/.test(name));
  test.each(scoreRates(some, [25, 50, 500]))("brought to $rate samples/s: pooled F1 at least 0.99", (row) => {
    expect(row.pooled).toBeGreaterThanOrEqual(0.99);
  });
});

describe("synthetic pulses of twelve real shapes at 20 dB", () => {
  test.each([30, 60, 110, 160, 220])("%d/min: pooled F1 at least 0.99", (perMinute) => {
    expect(scoreSynthetic(shapes, perMinute, 20, 0.03, 25).pooled).toBeGreaterThanOrEqual(0.99);
  });

  test.each([70, 100, 130])(
    "%d/min with intervals scattering by 22 %: pooled F1 at least 0.98",
    (perMinute) => {
      expect(scoreSynthetic(shapes, perMinute, 20, 0.22, 25).pooled).toBeGreaterThanOrEqual(0.98);
    },
  );

  test("the first and the last beat of 8 s are found", () => {
    const gauss = createGauss(createRandom(5));
    for (const shape of shapes) {
      const { values, peaks } = stringBeats(shape, new Array(9).fill(0.9), 100, 20, gauss);
      const found = detectBeats(values.subarray(0, 800), 100);
      expect(Math.abs(found[0]!.peak - peaks[0]!)).toBeLessThan(0.15);
      expect(Math.abs(found.at(-1)!.peak - peaks[8]!)).toBeLessThan(0.15);
    }
  });
});

describe("streaming", () => {
  const { values, rate } = named("P22_baseline_ear");

  test.each([1, 7, 250])("blocks of %d samples give the beats of one block, bit for bit", (cut) => {
    const whole = find(values, rate).map(({ beat }) => beat);
    expect(whole.length).toBeGreaterThan(100);
    expect(find(values, rate, cut).map(({ beat }) => beat)).toEqual(whole);
  });

  test("after the first 5 s a beat is told within 1 s of its peak", () => {
    for (const { beat, told } of find(values, rate, 1)) {
      if (beat.peak > 5) expect(told - beat.peak).toBeLessThanOrEqual(1);
    }
  });

  test("no beat lies in a gap or spans it, and beats go on behind it", () => {
    const holed = values.slice();
    const holes = [
      [20, 20.004],
      [30, 31.5],
      [50, 58],
    ] as const;
    for (const [from, to] of holes) holed.fill(Number.NaN, Math.round(from * rate), Math.round(to * rate));
    const beats = find(holed, rate).map(({ beat }) => beat);
    for (const [from, to] of holes) {
      for (const { foot, peak, notch } of beats) {
        const first = foot ?? peak;
        const last = notch ?? peak;
        expect(first > to - 0.02 || last < from + 0.02).toBe(true);
      }
    }
    expect(beats.filter(({ peak }) => peak > 58 && peak < 68).length).toBeGreaterThanOrEqual(11);
  });
});

describe("a beat", () => {
  test("of raw light carries 100 × AC/DC, of a display trace nothing", () => {
    // A cosine of amplitude 50 on 10000: peak to foot 100, so 1 %.
    const values = Float64Array.from(
      { length: 1500 },
      (_, i) => 10_000 - 50 * Math.cos((2 * Math.PI * 1.2 * i) / 100),
    );
    const raw = find(values, 100, values.length, true).map(({ beat }) => beat);
    expect(raw.length).toBeGreaterThanOrEqual(17);
    for (const { amplitude, perfusionIndex } of raw.slice(3)) {
      expect(amplitude).toBeCloseTo(100, 0);
      expect(perfusionIndex).toBeCloseTo(1, 1);
    }
    for (const { beat } of find(values, 100)) expect(beat.perfusionIndex).toBeNull();
  });

  test("has its foot where the rise begins and its notch before the second wave", () => {
    // Straight rise of 0.1 s at each whole second, straight fall with a second wave starting at 0.35 s.
    const at = (t: number) => {
      if (t < 0.1) return 10 * t;
      if (t < 0.35) return 1 - 2.4 * (t - 0.1);
      if (t < 0.42) return 0.4 + 1.5 * (t - 0.35);
      return Math.max(0, 0.505 - 1.5 * (t - 0.42));
    };
    const values = Float64Array.from({ length: 12_000 }, (_, i) => 5 + at((i / 1000) % 1));
    const beats = find(values, 1000).map(({ beat }) => beat);
    expect(beats.length).toBeGreaterThanOrEqual(11);
    for (const { foot, peak, notch } of beats.slice(1)) {
      const second = Math.round(peak - 0.1);
      // The low-pass rounds corners: what is left is some ms.
      expect(Math.abs(foot! - second)).toBeLessThan(0.02);
      expect(Math.abs(peak - second - 0.1)).toBeLessThan(0.02);
      expect(Math.abs(notch! - second - 0.35)).toBeLessThan(0.02);
    }
  });
});

describe("whatever comes", () => {
  const sample = fc.oneof(
    { weight: 10, arbitrary: fc.double({ min: -1000, max: 1000, noNaN: true }) },
    { weight: 3, arbitrary: fc.constantFrom(0, 1, 1) },
    { weight: 1, arbitrary: fc.constant(Number.NaN) },
    { weight: 1, arbitrary: fc.double() },
  );

  test("beats come in order with finite times, foot before peak before notch, and a positive amplitude", () => {
    fc.assert(
      fc.property(
        fc.array(sample, { minLength: 50, maxLength: 900 }),
        fc.constantFrom(25, 100, 258.83),
        fc.constantFrom(1, 250),
        (samples, rate, cut) => {
          const values = Float64Array.from(samples);
          const beats = find(values, rate, cut).map(({ beat }) => beat);
          expect(beats).toEqual(find(values, rate).map(({ beat }) => beat));
          let before = Number.NEGATIVE_INFINITY;
          for (const { foot, peak, notch, amplitude } of beats) {
            expect(peak).toBeGreaterThan(before);
            expect(peak).toBeLessThanOrEqual(values.length / rate);
            if (foot !== null) expect(foot).toBeLessThanOrEqual(peak);
            if (notch !== null) expect(notch).toBeGreaterThan(peak);
            expect(amplitude).toBeGreaterThan(0);
            before = peak;
          }
        },
      ),
      // A failing case of hundreds of samples would take minutes to shrink.
      { endOnFailure: true },
    );
  });

  test("a constant has no beats", () => {
    fc.assert(
      fc.property(fc.double({ min: -1e9, max: 1e9, noNaN: true }), (value) => {
        expect(find(new Float64Array(1500).fill(value), 100)).toEqual([]);
      }),
    );
  });
});
