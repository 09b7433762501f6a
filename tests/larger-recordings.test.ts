/**
 * Recordings too large to travel with the project, in the optional folder `../shared/data`. Rates are those its README
 * states, ±2 a minute; the packed copies in `data/` must hold the very values of the originals.
 */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { fromDisk } from "../scripts/accuracy/file-source.js";
import { openRecording } from "../src/formats/index.js";
import { listen } from "../src/limb/listen.js";

const packed = join(import.meta.dirname, "../data/recordings/");
const folder = join(import.meta.dirname, "../../shared/data/");
const present = existsSync(folder);

async function channelOf(path: string, name: string, rate?: number) {
  const { source, folder: beside } = fromDisk(path);
  const recording = await openRecording(source, beside, rate === undefined ? {} : { rate });
  const at = recording.channels.findIndex((channel) => channel.name === name);
  expect(
    at,
    `${path} has ${recording.channels.map((channel) => channel.name).join(", ")}`,
  ).toBeGreaterThanOrEqual(0);
  return { channel: recording.channels[at]!, blocks: () => recording.blocks([at]) };
}

async function valuesOf(path: string, name: string): Promise<number[]> {
  const values: number[] = [];
  for await (const block of (await channelOf(path, name)).blocks()) values.push(...block.values);
  return values;
}

if (!present) {
  const words =
    "left out: larger recordings, since the optional folder ../shared/data is not beside this checkout";
  console.log(words);
  test(words, () => {
    expect(existsSync(folder)).toBe(false);
  });
} else {
  describe("packed recordings hold the values of the originals", () => {
    test.each([
      ["bidmc_01.hea", "PLETH", "ppg-ecg/bidmc_01_Signals.csv", 5e-6],
      ["bidmc_01.hea", "II", "ppg-ecg/bidmc_01_Signals.csv", 5e-5],
      ["red_ir.hea", "PLETH", "red-ir/red_ir_spo2.csv", 0],
      ["red_ir.hea", "IR_ADC", "red-ir/red_ir_spo2.csv", 0],
      ["red_ir.hea", "SPO2_PCT", "red-ir/red_ir_spo2.csv", 1e-12],
      ["P12_baseline.csv", "PPG Ear", "two-site/P12_baseline_1675943910_462031.csv", 0],
    ])("%s %s", async (small, name, large, tolerance) => {
      const one = await valuesOf(packed + small, name);
      const other = await valuesOf(folder + large, name);
      expect(one.length).toBe(other.length);
      const off = one.map((value, i) =>
        Number.isNaN(value) && Number.isNaN(other[i]) ? 0 : Math.abs(value - other[i]!),
      );
      expect(off.filter((x) => !(x <= tolerance))).toEqual([]);
    });
  });

  describe("pulse rates of recordings that were not packed", () => {
    test.each([
      {
        path: "two-site/P1_S1_baseline_1674758272_855629.csv",
        name: "PPG Ear",
        rate: 250,
        perMinute: 73.9,
        from: 0,
        to: 120,
      },
      {
        path: "edf/derived_bidmc_01_first120s.edf",
        name: "Pleth",
        rate: undefined,
        perMinute: 91.5,
        from: 0,
        to: 90,
      },
      {
        path: "edf/derived_red_ir_rows6000-17999.edf",
        name: "Pleth",
        rate: undefined,
        perMinute: 76.9,
        from: 0,
        to: 120,
      },
    ])("$path: $perMinute a minute", async ({ path, name, rate, perMinute, from, to }) => {
      const { beats } = await listen(await channelOf(folder + path, name, rate), { from, to });
      const intervals = beats
        .slice(1)
        .map((beat, i) => beat.peak - beats[i]!.peak)
        .sort((a, b) => a - b);
      expect(Math.abs(60 / intervals[intervals.length >> 1]! - perMinute)).toBeLessThanOrEqual(2);
    });
  });
}
