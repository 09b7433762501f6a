import { describe, expect, test } from "vitest";
import { listenTo } from "../../scripts/accuracy/grade.js";
import { cutTrials, lossInTime, returnInTime, timeCut } from "../../scripts/accuracy/losses.js";
import { movementLosses, poissonLimits } from "../../scripts/accuracy/losses-uncut.js";
import { loadMarked } from "../../scripts/accuracy/recordings.js";
import { createRandom, normal } from "./testing/noise.js";
import { pulsePart } from "./testing/surrogate.js";

const recordings = await loadMarked();
const named = (name: string) => recordings.find((recording) => recording.name === name)!;

/** Usual interval before a time, from the marked beats, s. */
function intervalAt(peaks: readonly number[], time: number): number {
  const before = peaks.filter((peak) => peak <= time).slice(-9);
  const intervals = before.slice(1).map((peak, i) => peak - before[i]!);
  return intervals.sort((a, b) => a - b)[intervals.length >> 1]!;
}

describe("a103l, whose pleth dies three times while the ECG goes on", () => {
  const { values, rate, peaks } = named("a103l");
  const { losses } = listenTo(values, rate);

  // Last and first marked beats around each; data/beats/a103l.csv.
  test.each([
    { last: 164.9021, next: 173.944 },
    { last: 257.4044, next: 263.1152 },
    { last: 313.7943, next: 318.5371 },
  ])("the pulse lost after $last s is missed within three beats", ({ last, next }) => {
    const interval = intervalAt(peaks, last);
    const loss = losses.find(({ seen }) => seen > last && seen < next);
    expect(loss).toBeDefined();
    expect(loss!.seen - last).toBeLessThanOrEqual(3 * interval);
    expect(loss!.backSeen! - next).toBeLessThanOrEqual(3 * interval);
    expect(loss!.back!).toBeGreaterThan(last + 3);
  });

  test("nothing else is called a loss", () => {
    expect(losses).toHaveLength(3);
  });
});

describe("no loss is seen", () => {
  test("in the good windows of any recording, pauses of 1.6 s and early beats included", () => {
    for (const { name, values, rate, windows } of recordings) {
      const good = listenTo(values, rate).losses.filter(({ seen }) =>
        windows.some(({ from, to, label }) => label === "good" && seen >= from && seen < to),
      );
      expect(good, name).toEqual([]);
    }
  });

  test.each([60, 75, 110])("in an irregular rhythm of %d/min", (perMinute) => {
    const random = createRandom(perMinute);
    let next = 0;
    let since = 1;
    const values = Float64Array.from({ length: 600 * 60 }, (_, i) => {
      if (i / 60 >= next) {
        next += Math.max(0.35, (60 / perMinute) * (1 + 0.24 * normal(random)));
        since = 0;
      } else since += 1 / 60;
      const rise = Math.sin((Math.PI / 2) * Math.min(1, since / 0.14)) ** 2;
      return rise * Math.exp(-Math.max(0, since - 0.14) / 0.25) + 0.01 * normal(random);
    });
    expect(listenTo(values, 60).losses).toEqual([]);
  });
});

describe("real pulses, taken out at one place and put back at another", () => {
  test.each(["bidmc_01", "red_ir", "P22_baseline_ear"])(
    "%s: seen, and seen again, within three beats",
    (name) => {
      const { values, rate, feet, peaks, windows } = named(name);
      const part = pulsePart(values, rate, feet);
      const isGood = (time: number) =>
        windows.some(({ from, to, label }) => label === "good" && time >= from && time < to);
      const random = createRandom(name.length);
      let trials = 0;
      let seen = 0;
      let seenAgain = 0;
      for (let tries = 0; trials < 12 && tries < 4000; tries++) {
        // The cut lies at a foot, so that no half pulse is left.
        const foot = feet[Math.floor(random() * feet.length)]!;
        const gone = foot - 0.02;
        const back = feet.find((time) => time > gone + 6 + 6 * random());
        if (back === undefined || ![-12, -7, -2, 0].every((off) => isGood(gone + off))) continue;
        if (![0, 4].every((off) => isGood(back + off))) continue;
        trials++;
        const start = Math.max(0, Math.round((gone - 15) * rate));
        const cut = values.slice(start, Math.round((back + 6) * rate));
        for (let i = Math.round(gone * rate); i < Math.round((back - 0.02) * rate); i++)
          cut[i - start]! -= part[i]!;
        const { losses } = listenTo(cut, rate);
        const shift = start / rate;
        const last = peaks.filter((peak) => peak < gone).at(-1)!;
        const interval = intervalAt(peaks, gone);
        const loss = losses.find((one) => one.seen + shift > gone && one.seen + shift < back);
        if (loss === undefined) continue;
        if (loss.seen + shift - last <= 3 * interval) seen++;
        const first = peaks.find((peak) => peak > back)!;
        if (loss.backSeen !== null && Math.abs(loss.backSeen + shift - first) <= 3 * interval) seenAgain++;
      }
      expect(trials).toBe(12);
      expect(seen).toBeGreaterThanOrEqual(11);
      expect(seenAgain).toBeGreaterThanOrEqual(11);
    },
  );
});

describe("real pulses, cut and restored at random instants in six ways", () => {
  // A smaller draw than that of `npm run accuracy`, with a seed of its own; 95 % leaves room for the ways in which
  // what is left of the pulse still beats.
  const trials = cutTrials(recordings, 2, 412);

  test("seven recordings have room for it", () => {
    expect(trials).toHaveLength(7 * 6 * 2);
    expect(new Set(trials.map(({ record }) => record)).size).toBe(7);
  });

  test("losses are seen within three beats of the last one", () => {
    expect(trials.filter(lossInTime).length).toBeGreaterThanOrEqual(0.95 * trials.length);
  });

  test("returns are seen within three beats of the first whole one", () => {
    expect(trials.filter(returnInTime).length).toBeGreaterThanOrEqual(0.95 * trials.length);
  });

  test("hardly any return is seen while the pulse is cut", () => {
    expect(trials.reduce((sum, { falseReturns }) => sum + falseReturns, 0)).toBeLessThanOrEqual(3);
  });
});

describe("under movement, while the pulse goes on", () => {
  test("losses are seen, but never in a window that speaks of a working probe without a pulse (S5)", () => {
    const { trials, lost, grades } = movementLosses(recordings, 3, 413);
    expect(trials).toBe(7 * 3);
    expect(lost).toBeGreaterThan(0);
    expect(grades.none).toBe(0);
    expect(grades.solid).toBe(0);
  });
});

describe("a recording that ends while something is being noticed", () => {
  const { values, rate } = named("a103l");
  const start = Math.round(140 * rate);

  // About the loss after 164.90 s and the return from 173.94 s on, sample by sample enough to meet both.
  test.each([
    { what: "loss", from: 165.6, to: 166, time: "seen" },
    { what: "return", from: 174.9, to: 175.3, time: "backSeen" },
  ] as const)("knows of the $what no later than its end", ({ from, to, time }) => {
    let last = 0;
    let atEnd = 0;
    for (let end = Math.round(from * rate); end < to * rate; end += 2) {
      const length = (end - start) / rate;
      for (const loss of listenTo(values.slice(start, end), rate).losses) {
        last = loss[time] ?? last;
        if (loss[time] === length) atEnd++;
        expect(loss.seen).toBeLessThanOrEqual(length);
        expect(loss.backSeen ?? 0).toBeLessThanOrEqual(length);
      }
    }
    expect(last).toBeGreaterThan(20);
    // Some ends fall within the 0.1 s in which only the trace continued beyond the end tells.
    expect(atEnd).toBeGreaterThan(0);
  });
});

describe("how losses are counted", () => {
  const every = (seconds: number, from: number, count: number) =>
    Array.from({ length: count }, (_, i) => from + i * seconds);
  // A beat a second, feet 0.2 s before the peaks; cut at 20.9 s, within the upstroke to 21, back at 30.5 s.
  const recording = { ...named("data"), peaks: every(1, 1, 60), feet: every(1, 0.8, 60) };
  const place = { cut: 20.9, back: 30.5 };
  const loss = (from: number, seen: number, back: number | null, backSeen: number | null) =>
    ({ from, seen, back, backSeen }) as Parameters<typeof timeCut>[2][number];

  test("from the last peak before the cut, and from the first whole beat after it", () => {
    const timed = timeCut(recording, place, [loss(20, 22.5, 31, 33)]);
    expect(timed.inUpstroke).toBe(true);
    expect(timed.lossBeats).toBeCloseTo(2.5, 9);
    expect(timed.returnBeats).toBeCloseTo(2, 9);
    expect(timed.falseReturns).toBe(0);
  });

  test("a loss seen only after the restoration is not seen, nor is its return", () => {
    const timed = timeCut(recording, place, [loss(29, 30.6, 31, 33)]);
    expect(timed).toMatchObject({ lossBeats: null, returnBeats: null });
  });

  test("a return seen while the pulse is cut is false, and the true one counts by itself", () => {
    const timed = timeCut(recording, place, [loss(20, 22.5, 25, 26), loss(26, 28.5, 31, 32.5)]);
    expect(timed.falseReturns).toBe(1);
    expect(timed.returnBeats).toBeCloseTo(1.5, 9);
    expect(timeCut(recording, place, [loss(20, 22.5, 25, 26)]).returnBeats).toBeNull();
  });

  // Garwood's exact limits, as in handbook tables (Documenta Geigy), from memory.
  test.each([
    [0, 0, 3.689],
    [1, 0.0253, 5.572],
    [5, 1.623, 11.668],
    [10, 4.795, 18.39],
  ])("%d events allow a mean of %d to %d", (count, low, high) => {
    expect(poissonLimits(count)[0]).toBeCloseTo(low, 2);
    expect(poissonLimits(count)[1]).toBeCloseTo(high, 2);
  });
});
