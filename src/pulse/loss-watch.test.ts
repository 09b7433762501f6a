import { describe, expect, test } from "vitest";
import { listenTo } from "../../scripts/accuracy/grade.js";
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
