/** Invented readings for tests: beats with a stated scatter, windows of a stated grade. No signal is made. */
import {
  type Beat,
  type CaptureGrade,
  type Channel,
  hertz,
  type Percent,
  type Presence,
  type Seconds,
  type Site,
  seconds,
  type Window,
} from "../../model/index.js";
import { type Declared, nothingDeclared } from "../declared.js";
import { type BeatShape, type Reading, type ReadingInput, takeReading } from "../reading.js";

export const rawLight: Channel = {
  name: "IR",
  kind: "raw-light",
  colour: "infrared",
  polarity: "systole-down",
  unit: "",
  rate: hertz(100),
  start: seconds(0),
  samples: null,
  because: "stated by the test",
};

export const displayTrace: Channel = {
  ...rawLight,
  name: "PLETH",
  kind: "display-pleth",
  colour: null,
  polarity: "systole-up",
};

export const left: Site = { side: "left", digit: "middle finger" };
export const right: Site = { side: "right", digit: "middle finger" };

/** Everything asked and answered with no; at heart height. */
export const undisturbed: Declared = {
  cuff: false,
  pump: false,
  cold: false,
  block: false,
  covered: false,
  height: "at heart",
};

export interface Recipe {
  readonly site: Site | null;
  readonly channel: Channel;
  readonly grades: readonly CaptureGrade[];
  /** /min */
  readonly rate: number;
  /** % */
  readonly pi: number;
  /** SD of log PI from beat to beat. */
  readonly scatter: number;
  /** Foot after the heart beat, ms. */
  readonly arrival: number;
  /** SD of the foot, ms. */
  readonly jitter: number;
  readonly beats: boolean;
  readonly ecg: boolean;
  readonly presence: Presence | null;
  readonly level: number | null;
  readonly shape: BeatShape | null;
  readonly spo2: number | null;
  readonly declared: Declared;
  readonly seed: number;
}

export const usual: Recipe = {
  site: null,
  channel: rawLight,
  grades: ["solid", "solid", "solid", "solid"],
  rate: 72,
  pi: 2,
  scatter: 0.1,
  arrival: 200,
  jitter: 7,
  beats: true,
  ecg: false,
  presence: null,
  level: 50_000,
  shape: null,
  spo2: null,
  declared: nothingDeclared,
  seed: 1,
};

/** Even numbers from 0 to 1 from a seed: a linear congruential generator modulo 2^32 (Numerical Recipes constants). */
export function evenNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
}

/** Standard normal numbers from a seed (Box and Muller). */
export function bellNumbers(seed: number): () => number {
  const even = evenNumbers(seed);
  return () => Math.sqrt(-2 * Math.log(even())) * Math.cos(2 * Math.PI * even());
}

export function makeWindows(grades: readonly CaptureGrade[]): Window[] {
  return grades.map((capture, i) => ({
    from: seconds(5 * i),
    to: seconds(5 * i + 5),
    capture,
    reasons:
      capture === "solid"
        ? []
        : [{ code: capture === "off" ? "flat-line" : "too-few-beats", value: null, unit: "", limit: null }],
    pulseRate: null,
    perfusionIndex: null,
  }));
}

/** The recipe as input for `takeReading`: heart beats every 60/rate s from 0.3 s on. */
export function makeInput(recipe: Partial<Recipe> = {}): ReadingInput {
  const r = { ...usual, ...recipe };
  const bell = bellNumbers(r.seed);
  const end = 5 * r.grades.length;
  const hearts: Seconds[] = [];
  for (let t = 0.3; t < end; t += 60 / r.rate) hearts.push(seconds(t));
  const beats: Beat[] = !r.beats
    ? []
    : hearts.map((heart) => {
        const foot = heart + (r.arrival + r.jitter * bell()) / 1000;
        const pi = r.pi * Math.exp(r.scatter * bell());
        return {
          foot: seconds(foot),
          peak: seconds(foot + 0.2),
          notch: null,
          amplitude: (pi * (r.level ?? 1)) / 100,
          perfusionIndex: r.channel.kind === "raw-light" ? (pi as Percent) : null,
        };
      });
  return {
    site: r.site,
    channel: r.channel,
    from: seconds(0),
    to: seconds(end),
    windows: makeWindows(r.grades),
    beats,
    presence: r.presence,
    level: r.level,
    rWaves: r.ecg ? hearts : null,
    shape: r.shape,
    saturation: r.spo2 === null ? null : [{ time: seconds(end - 1), value: r.spo2 as Percent }],
    declared: r.declared,
  };
}

export function makeReading(recipe: Partial<Recipe> = {}): Reading {
  return takeReading(makeInput(recipe));
}

const untested: Presence = {
  answer: "cannot-tell",
  p: 1,
  amplitude: null,
  upperLimit: null,
  upperLimitIndex: null,
  delay: null,
  reference: false,
};

/** Presence with a reference: nothing there, and at most `hidden` % of PI could have hidden. */
export function notFound(hidden: number | null): Presence {
  return {
    ...untested,
    answer: "not-found",
    p: 0.4,
    reference: true,
    upperLimit: hidden === null ? 40 : hidden * 500,
    upperLimitIndex: hidden as Percent | null,
  };
}

/** Presence with a reference: a wave of `pi` % on a level of 50 000, ± a tenth. */
export function found(pi: number): Presence {
  const size = pi * 500;
  return {
    ...untested,
    answer: "found",
    p: 1e-6,
    reference: true,
    amplitude: { value: size, low: 0.9 * size, high: 1.1 * size },
    delay: seconds(0.2),
  };
}

/** Presence without a reference: never more than cannot tell when nothing is seen. */
export const unreferenced: Presence = untested;
export const likely: Presence = { ...untested, answer: "likely", p: 0.004, reference: true };
