/**
 * Times of tables against hand-marked beats of the open recordings in `data/`: the peaks found on the grid must lie
 * at the marks. The marks follow each file's own clock column (see `data/README.md`).
 */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readTable } from "./testing/read-table.js";

const data = new URL("../../../data/", import.meta.url);

/** Gaussian low-pass with its half-power point at 12 Hz, as the marks were set on a trace low-passed there. */
function smooth(values: readonly number[], rate: number): number[] {
  const width = (Math.sqrt(Math.log(2)) / (2 * Math.PI * 12)) * rate;
  const reach = Math.ceil(4 * width);
  const weights = Array.from({ length: 2 * reach + 1 }, (_, i) =>
    Math.exp(-((i - reach) ** 2) / (2 * width * width)),
  );
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return values.map((_, k) => {
    let sum = 0;
    for (let i = -reach; i <= reach; i++) sum += weights[i + reach]! * (values[k + i] ?? Number.NaN);
    return sum / total;
  });
}

/** Local maximum nearest to `t` within 60 ms, to a fraction of a sample. */
function peakNear(values: readonly number[], rate: number, t: number): number {
  let best = Math.round((t - 0.06) * rate);
  for (let k = best; k <= (t + 0.06) * rate; k++) if (values[k]! > values[best]!) best = k;
  const [a, b, c] = [values[best - 1]!, values[best]!, values[best + 1]!];
  return (best + (0.5 * (a - c)) / (a - 2 * b + c)) / rate;
}

describe.each([
  ["P12_baseline.csv", "PPG Finger", "P12_baseline_finger", {}],
  ["P12_baseline.csv", "PPG Ear", "P12_baseline_ear", {}],
  ["P22_baseline.csv", "PPG Finger", "P22_baseline_finger", {}],
  ["P22_baseline.csv", "PPG Ear", "P22_baseline_ear", {}],
  ["data2.csv", "hr", "data2", {}],
  ["data.csv", "column 1", "data", { rate: 100 }],
  ["noisy_20s_1000hz.txt", "PPG", "noisy_20s", {}],
])("%s, %s", (file, column, name, options) => {
  test("has its peaks where they were marked, from start to end", async () => {
    const { channels, values } = await readTable(
      new Uint8Array(readFileSync(new URL(`recordings/${file}`, data))),
      options,
    );
    const number = channels.findIndex((channel) => channel.name === column);
    const { rate, kind } = channels[number]!;
    expect(kind).toBe("display-pleth");
    const trace = smooth(values[number]!, rate);
    const marks = readFileSync(new URL(`beats/${name}.csv`, data), "utf8")
      .split("\n")
      .filter((line) => line.startsWith("P,"))
      .map((line) => Number(line.slice(2)));
    expect(marks.length).toBeGreaterThan(20);
    const thirds = [0, 1, 2].map((third) => {
      const part = marks.slice((third * marks.length) / 3, ((third + 1) * marks.length) / 3);
      const errors = part.map((t) => Math.abs(peakNear(trace, rate, t) - t)).toSorted((a, b) => a - b);
      return errors[errors.length >> 1]!;
    });
    // In each third: a clock that drifts would be right at one end only.
    for (const error of thirds) expect(error).toBeLessThan(0.005);
  });
});
