/** A stretch at one site: what it shows, with its spread, and whether it can be believed. */
import {
  type Beat,
  type CaptureGrade,
  type Channel,
  type Estimate,
  hasLevel,
  type Millis,
  type Percent,
  type PerMinute,
  type Presence,
  type Reason,
  type Seconds,
  type Site,
  type Window,
} from "../model/index.js";
import type { PulseTrace } from "../pulse/average-beat.js";
import { beatMedian, estimate } from "./beat-median.js";
import { combineGrades, reviseGrade } from "./combine-grades.js";
import type { Declared } from "./declared.js";
import { judgeSaturation, type Saturation, type SaturationNumber } from "./saturation.js";

/** The usual beat of a stretch, systole up, evenly sampled; any unit and offset. */
export interface BeatShape {
  /** First point after the foot; negative for before it. */
  readonly from: Seconds;
  readonly step: Seconds;
  readonly values: readonly number[];
}

export interface Reading {
  /** `null` if not stated; never inferred (S4). */
  readonly site: Site | null;
  readonly channel: Channel;
  /** First and last moment a window graded. */
  readonly from: Seconds;
  readonly to: Seconds;
  readonly capture: CaptureGrade;
  /** Empty when solid. */
  readonly reasons: readonly Reason[];
  /** All beats found in the stretch, whatever the grade. */
  readonly beats: readonly Beat[];
  /** `null` unless solid (S2). */
  readonly pulseRate: Estimate<PerMinute> | null;
  /** Median over the beats on a log scale; `null` unless raw light and solid (S2, S3). */
  readonly perfusionIndex: Estimate<Percent> | null;
  /** Foot after the R wave; `null` unless solid and an ECG was recorded with it. */
  readonly arrival: Estimate<Millis> | null;
  /** `null` unless solid. */
  readonly shape: BeatShape | null;
  /** The samples of the stretch, systole up, for what is measured between two sides; only when solid. */
  readonly trace?: PulseTrace;
  readonly presence: Presence | null;
  /** Size of the wave the presence test found, as a PI with its interval; `null` unless found in raw light. */
  readonly foundIndex: { readonly low: Percent; readonly high: Percent } | null;
  readonly saturation: Saturation | null;
  readonly declared: Declared;
}

export interface ReadingInput {
  readonly site: Site | null;
  readonly channel: Channel;
  /** The stretch asked for. */
  readonly from: Seconds;
  readonly to: Seconds;
  /** In order, joined or overlapping; those that add nothing to the stretch are left out. */
  readonly windows: readonly Window[];
  readonly beats: readonly Beat[];
  /** Of the same stretch; `null` when not tested. */
  readonly presence: Presence | null;
  /** Mean level of raw light in the channel's units, above 0; `null` otherwise or when unknown. */
  readonly level: number | null;
  /** R waves recorded on the same clock. */
  readonly rWaves: readonly Seconds[] | null;
  readonly shape: BeatShape | null;
  /** The samples of the stretch, systole up. */
  readonly trace?: PulseTrace;
  /** SpO2 numbers of the source, in order. */
  readonly saturation: readonly SaturationNumber[] | null;
  readonly declared: Declared;
}

/**
 * Builds a reading. Windows decide how far it reaches and what may be shown; see `combineGrades`,
 * and `reviseGrade` for what a reference and too few beats change.
 */
export function takeReading(input: ReadingInput): Reading {
  const { site, channel, presence, declared } = input;
  const windows = windowsOf(input);
  const from = Math.max(input.from, windows[0]?.from ?? input.from) as Seconds;
  const to = Math.min(input.to, windows.at(-1)?.to ?? input.to) as Seconds;
  const beats = input.beats.filter((beat) => beat.peak >= from && beat.peak <= to);
  const denied = presence?.reference === true && presence.answer === "not-found";
  const { capture, reasons } = reviseGrade(combineGrades(windows), windows, beats.length, denied);
  const solid = capture === "solid";
  return {
    site,
    channel,
    from,
    to,
    capture,
    reasons,
    beats,
    pulseRate: solid ? rateOf(beats) : null,
    perfusionIndex: solid && hasLevel(channel) ? indexOf(beats) : null,
    arrival: solid && input.rWaves !== null ? arrivalOf(beats, input.rWaves) : null,
    shape: solid ? input.shape : null,
    ...(solid && input.trace !== undefined ? { trace: input.trace } : {}),
    presence,
    foundIndex: hasLevel(channel) ? foundIndexOf(presence, input.level) : null,
    saturation: input.saturation === null ? null : judgeSaturation(input.saturation, from, to, capture),
    declared,
  };
}

/** Windows wholly inside the stretch, and at each end the one that reaches over it where none inside does. */
function windowsOf({ windows, from, to }: ReadingInput): readonly Window[] {
  const inside = windows.filter((window) => window.from >= from - slack && window.to <= to + slack);
  const touching = windows.filter((window) => window.to > from && window.from < to);
  const head = touching.filter((window) => window.from < from - slack).at(-1);
  const tail = touching.find((window) => window.to > to + slack && window !== head);
  return [
    ...(head !== undefined && (inside[0]?.from ?? to) > from + slack ? [head] : []),
    ...inside,
    ...(tail !== undefined && (inside.at(-1)?.to ?? from) < to - slack ? [tail] : []),
  ];
}

/** Times nearer than this are the same, seconds. */
const slack = 0.01;

/** From intervals between peaks; the median interval, so that one missed beat does not move it. */
function rateOf(beats: readonly Beat[]): Estimate<PerMinute> | null {
  const intervals = beats.slice(1).map((beat, i) => beat.peak - beats[i]!.peak);
  const middle = beatMedian(intervals);
  return middle === null ? null : estimate(middle, (x) => (60 / Math.max(x, 0.05)) as PerMinute);
}

/** Log PI of each beat that has one, in order. */
export function logIndices(beats: readonly Beat[]): number[] {
  return beats.flatMap((beat) =>
    beat.perfusionIndex !== null && beat.perfusionIndex > 0 ? [Math.log(beat.perfusionIndex)] : [],
  );
}

function indexOf(beats: readonly Beat[]): Estimate<Percent> | null {
  const middle = beatMedian(logIndices(beats));
  return middle === null ? null : estimate(middle, (x) => Math.exp(x) as Percent);
}

/** Plausible R wave to foot, seconds: ear 0.13, toe 0.30 on average (Allen and Murray 2000), wider for the sick. */
const earliest = 0.05;
const latest = 0.6;

function arrivalOf(beats: readonly Beat[], rWaves: readonly Seconds[]): Estimate<Millis> | null {
  const delays: number[] = [];
  let next = 0;
  for (const beat of beats) {
    if (beat.foot === null) continue;
    while (next < rWaves.length && rWaves[next]! <= beat.foot - earliest) next++;
    const before = rWaves[next - 1];
    if (before !== undefined && beat.foot - before <= latest) delays.push(1000 * (beat.foot - before));
  }
  const middle = beatMedian(delays);
  return middle === null ? null : estimate(middle, (x) => x as Millis);
}

function foundIndexOf(presence: Presence | null, level: number | null): Reading["foundIndex"] {
  if (presence === null || presence.answer !== "found" || presence.amplitude === null) return null;
  if (level === null || !(level > 0)) return null;
  const index = (size: number) => ((100 * Math.max(0, size)) / level) as Percent;
  return { low: index(presence.amplitude.low), high: index(presence.amplitude.high) };
}
