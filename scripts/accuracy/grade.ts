/** How well the capture grade tells believable windows: on labelled recordings, on noise, and with the pulse taken out. */
import { type CaptureGrade, captureGrades, type Loss, type Window } from "../../src/model/capture.js";
import { hertz } from "../../src/model/units.js";
import { type CaptureLimits, captureLimits } from "../../src/pulse/capture-grade.js";
import { createPulseListener } from "../../src/pulse/listener.js";
import {
  type DisturbanceKind,
  disturbanceKinds,
  isDisturbance,
  makeDisturbance,
} from "../../src/pulse/testing/disturbances.js";
import { createRandom, makeNoise, type NoiseKind, noiseKinds } from "../../src/pulse/testing/noise.js";
import { pulsePart, randomisePhases } from "../../src/pulse/testing/surrogate.js";

/** What is graded: one channel with labelled windows; `MarkedRecording` of `recordings.ts` is one. */
export interface GradedChannel {
  readonly name: string;
  readonly values: Float64Array;
  readonly rate: number;
  /** Marked feet, s; needed only to take the pulse out. */
  readonly feet: readonly number[];
  readonly windows: readonly { readonly from: number; readonly to: number; readonly label: string }[];
}

export type GradeCounts = Readonly<Record<CaptureGrade, number>>;

export interface GradeRow {
  readonly record: string;
  readonly label: string;
  readonly counts: GradeCounts;
}

export interface GradeReport {
  /** Labels × grades per record, then pooled under the record name `all`. */
  readonly rows: readonly GradeRow[];
  readonly goodSolid: number;
  readonly good: number;
  readonly badSolid: number;
  readonly bad: number;
  /** One-sided 95 % limit of the true rate behind `badSolid` of `bad`. */
  readonly badLimit: number;
  readonly doubtfulSolid: number;
  readonly doubtful: number;
  readonly loosened: readonly { readonly record: string; readonly from: number; readonly reasons: string }[];
}

/** Runs one channel through the listener; losses come once, with their return if there was one. */
export function listenTo(
  values: Float64Array,
  rate: number,
  hop = 5,
  limits: CaptureLimits = captureLimits,
): { readonly windows: readonly Window[]; readonly losses: readonly Loss[] } {
  const windows: Window[] = [];
  const losses: Loss[] = [];
  const listener = createPulseListener(
    { rate: hertz(rate), polarity: "systole-up", level: false, hop, limits },
    {
      beat() {},
      window: (window) => windows.push(window),
      loss(loss) {
        if (loss.back === null) losses.push(loss);
        else losses[losses.length - 1] = loss;
      },
    },
  );
  listener.push(values);
  listener.end();
  return { windows, losses };
}

/**
 * Exact one-sided upper 95 % limit of a binomial rate: the p at which so few or fewer have a chance of 5 %.
 *
 * @see C. J. Clopper and E. S. Pearson, Biometrika 1934;26:404; for 0 of n it is 1 − 0.05^(1/n)
 */
export function upperLimit(hits: number, trials: number): number {
  if (hits >= trials) return 1;
  let low = hits / trials;
  let high = 1;
  for (let step = 0; step < 60; step++) {
    const p = (low + high) / 2;
    let term = (1 - p) ** trials;
    let chance = term;
    for (let k = 1; k <= hits; k++) {
      term *= ((trials - k + 1) / k) * (p / (1 - p));
      chance += term;
    }
    if (chance > 0.05) low = p;
    else high = p;
  }
  return high;
}

/** A tally to start from. */
export const noGrades = (): Record<CaptureGrade, number> => ({
  solid: 0,
  shaky: 0,
  none: 0,
  off: 0,
  unreadable: 0,
});

/** Grades the labelled windows, hop 5 s from 0 so that they are the labelled ones. */
export function gradeLabelled(
  channels: readonly GradedChannel[],
  limits: CaptureLimits = captureLimits,
): GradeReport {
  const table = new Map<string, Record<CaptureGrade, number>>();
  const loosened: { record: string; from: number; reasons: string }[] = [];
  const count = (record: string, label: string, grade: CaptureGrade) => {
    const key = `${record}\n${label}`;
    const row = table.get(key) ?? noGrades();
    row[grade]++;
    table.set(key, row);
  };
  for (const { name, values, rate, windows } of channels) {
    const graded = listenTo(values, rate, 5, limits).windows;
    for (const { from, label } of windows) {
      const window = graded.find((one) => Math.abs(one.from - from) < 0.1);
      if (window === undefined) throw new Error(`${name}: no window at ${from} s`);
      count(name, label, window.capture);
      count("all", label, window.capture);
      const misses = label === "good" && window.capture !== "solid";
      const overrates = label !== "good" && label !== "doubtful" && window.capture === "solid";
      if (misses || overrates) {
        const reasons = window.reasons
          .map((reason) => `${reason.code} ${reason.value?.toFixed(2) ?? ""}`)
          .join(", ");
        loosened.push({ record: name, from, reasons: `${label}, ${window.capture}: ${reasons}` });
      }
    }
  }
  const pooled = (label: string) => table.get(`all\n${label}`) ?? noGrades();
  const total = (counts: GradeCounts) => captureGrades.reduce((sum, grade) => sum + counts[grade], 0);
  const bad = total(pooled("none")) + total(pooled("unreadable"));
  const badSolid = pooled("none").solid + pooled("unreadable").solid;
  return {
    rows: [...table].map(([key, counts]) => {
      const [record, label] = key.split("\n");
      return { record: record!, label: label!, counts };
    }),
    goodSolid: pooled("good").solid,
    good: total(pooled("good")),
    badSolid,
    bad,
    badLimit: upperLimit(badSolid, bad),
    doubtfulSolid: pooled("doubtful").solid,
    doubtful: total(pooled("doubtful")),
    loosened,
  };
}

export type NullKind = NoiseKind | DisturbanceKind;

export interface NoiseRow {
  readonly kind: NullKind;
  readonly rate: number;
  readonly counts: GradeCounts;
  readonly limit: number;
}

/** Grades seeded noise, hums, breaths and movements; none may be solid. `draws` recordings of 60 s per kind and rate. */
export function gradeNoise(
  draws: number,
  rates: readonly number[] = [25, 50, 100, 125, 250, 500, 1000],
  kinds: readonly NullKind[] = [...noiseKinds, ...disturbanceKinds],
  seed = 1,
): readonly NoiseRow[] {
  return kinds.flatMap((kind, k) =>
    rates.map((rate) => {
      const counts = noGrades();
      for (let draw = 0; draw < draws; draw++) {
        const random = createRandom(seed + k * 7919 + rate * 104729 + draw * 31);
        const values = isDisturbance(kind)
          ? makeDisturbance(kind, 60 * rate, rate, random)
          : makeNoise(kind, 60 * rate, rate, random);
        for (const { capture } of listenTo(values, rate).windows) counts[capture]++;
      }
      const trials = captureGrades.reduce((sum, grade) => sum + counts[grade], 0);
      return { kind, rate, counts, limit: upperLimit(counts.solid, trials) };
    }),
  );
}

/**
 * Grades recordings whose pulse was taken out (beat-locked average of the neighbouring beats subtracted): altered
 * recordings. Only windows labelled `good` count, so that what is left is a quiet channel.
 */
export function gradeWithoutPulse(channels: readonly GradedChannel[]): readonly GradeRow[] {
  return channels.map(({ name, values, rate, feet, windows }) => {
    const part = pulsePart(values, rate, feet);
    const counts = noGrades();
    for (const { from, capture } of listenTo(
      values.map((x, i) => x - part[i]!),
      rate,
    ).windows) {
      const label = windows.find((one) => Math.abs(one.from - from) < 0.1)?.label;
      if (label === "good") counts[capture]++;
    }
    return { record: name, label: "good, pulse taken out", counts };
  });
}

/**
 * The same recordings without pulse, in pieces of up to a minute, with the phases of their spectrum drawn anew: real
 * power at every frequency, but nothing that beats. All windows count.
 */
export function gradePhaseless(channels: readonly GradedChannel[], draws: number): readonly GradeRow[] {
  return channels.map(({ name, values, rate, feet }, number) => {
    const part = pulsePart(values, rate, feet);
    const rest = values.map((x, i) => x - part[i]!);
    const size = 2 ** Math.floor(Math.log2(Math.min(rest.length, 60 * rate)));
    const counts = noGrades();
    for (let from = 0; from + size <= rest.length; from += size) {
      const piece = rest.slice(from, from + size);
      if (!piece.every(Number.isFinite)) continue;
      for (let draw = 0; draw < draws; draw++) {
        const random = createRandom(number * 7919 + from * 31 + draw);
        for (const { capture } of listenTo(randomisePhases(piece, random), rate).windows) counts[capture]++;
      }
    }
    return { record: name, label: "pulse taken out, phases drawn anew", counts };
  });
}
