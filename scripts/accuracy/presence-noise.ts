/** How often presence tests fire where there is no pulse, and how often the upper limit covers one. Synthetic. */
import { testAlone } from "../../src/pulse/presence-alone.js";
import { type DelayPrior, testWithReference } from "../../src/pulse/presence-reference.js";
import { genericTemplate, type Template } from "../../src/pulse/presence-template.js";
import { createRandom, makeNoise, type NoiseKind, noiseKinds } from "../../src/pulse/testing/noise.js";
import { makeBeats, makePulses } from "../../src/pulse/testing/pulse-train.js";
import { recordedShapes } from "../../src/pulse/testing/shapes.js";
import { type Share, share } from "./presence-share.js";

const rate = 50;

export interface FalseAlarmRow {
  readonly test: "delay known" | "delay 0.1 to 0.7 s" | "alone";
  readonly noise: NoiseKind;
  readonly seconds: number;
  /** p below 0.01 and below 0.001. */
  readonly atOnePercent: Share;
  readonly atOnePerMille: Share;
  /** Answers `found` or `likely`, and `found`, with all guards. */
  readonly claimed: Share;
  readonly found: Share;
}

/** Noise of every kind, 50 to 110/min, 3 % interval scatter; as many trials per row. */
export function falseAlarms(trials: number, seed = 20260101): FalseAlarmRow[] {
  const rows: FalseAlarmRow[] = [];
  const delays: readonly (readonly [FalseAlarmRow["test"], DelayPrior | null])[] = [
    ["delay known", { known: 0.4 }],
    ["delay 0.1 to 0.7 s", { from: 0.1, to: 0.7 }],
    ["alone", null],
  ];
  for (const seconds of [5, 10, 20]) {
    for (const noise of noiseKinds) {
      for (const [test, delay] of delays) {
        const random = createRandom(seed + seconds);
        const hits = { onePercent: 0, onePerMille: 0, claimed: 0, found: 0 };
        for (let i = 0; i < trials; i++) {
          const referenceBeats = makeBeats(0, seconds, 50 + 60 * random(), 0.03, random);
          const values = makeNoise(noise, seconds * rate, rate, random);
          const got =
            delay === null
              ? testAlone({ values, rate }).presence
              : testWithReference({ values, rate, referenceBeats, delay });
          if (got.p < 0.01) hits.onePercent++;
          if (got.p < 0.001) hits.onePerMille++;
          if (got.answer === "found" || got.answer === "likely") hits.claimed++;
          if (got.answer === "found") hits.found++;
        }
        rows.push({
          test,
          noise,
          seconds,
          atOnePercent: share(hits.onePercent, trials),
          atOnePerMille: share(hits.onePerMille, trials),
          claimed: share(hits.claimed, trials),
          found: share(hits.found, trials),
        });
      }
    }
  }
  return rows;
}

export interface CoverageRow {
  readonly shape: string;
  readonly noise: NoiseKind;
  readonly seconds: number;
  /** Signal energy over noise: d of the ideal matched filter in white noise of unit spread. */
  readonly d: number;
  readonly covered: Share;
  /** Median upper limit over the SD of the noise in the window. */
  readonly medianLimit: number;
}

/** Nominal 95 %: how often the true peak-to-peak size lies below the limit, at any answer. */
export function limitCoverage(trials: number, seed = 20260202): CoverageRow[] {
  const rows: CoverageRow[] = [];
  const groups: readonly (readonly [string, readonly Template[]])[] = [
    ["generic", [genericTemplate]],
    ["eight typical", recordedShapes.slice(0, 8)],
    ["data", [recordedShapes[8]!]],
    ["data2", [recordedShapes[9]!]],
  ];
  for (const seconds of [10, 20]) {
    for (const noise of ["white", "pink"] as const) {
      for (const [shape, templates] of groups) {
        for (const d of [0, 2, 4, 6]) {
          const random = createRandom(seed + seconds);
          let covered = 0;
          const limits: number[] = [];
          for (let i = 0; i < trials; i++) {
            const beats = makeBeats(0, seconds, 50 + 60 * random(), 0.03, random);
            const delay = 0.15 + 0.5 * random();
            const template = templates[i % templates.length]!;
            const feet = beats.map((beat) => beat + delay);
            const unit = makePulses(seconds * rate, rate, feet, template, 1);
            const values = makeNoise(noise, unit.length, rate, random);
            const size = d / Math.sqrt(unit.reduce((sum, x) => sum + x * x, 0));
            const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
            const spread = Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / values.length);
            const got = testWithReference({
              values: values.map((x, n) => x + size * unit[n]!),
              rate,
              referenceBeats: beats,
              delay: { from: 0.1, to: 0.7 },
            });
            if (got.upperLimit === null || got.upperLimit >= size) covered++;
            if (got.upperLimit !== null) limits.push(got.upperLimit / spread);
          }
          limits.sort((a, b) => a - b);
          rows.push({
            shape,
            noise,
            seconds,
            d,
            covered: share(covered, trials),
            medianLimit: limits[limits.length >> 1] ?? Number.NaN,
          });
        }
      }
    }
  }
  return rows;
}
