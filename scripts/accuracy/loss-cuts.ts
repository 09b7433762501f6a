/** Real recordings whose pulse is cut at one instant and restored at another, in stated ways. */
import { createRandom, type Random } from "../../src/pulse/testing/noise.js";
import { pulsePart, randomisePhases } from "../../src/pulse/testing/surrogate.js";
import type { MarkedRecording } from "./recordings.js";

/**
 * What the pleth shows while the pulse is cut:
 * - `held`: the level at the instant of the cut, and the recording's own quick noise (above some 2 Hz)
 * - `subtracted`: the recording less its beat-locked average; what the subtraction leaves of each beat still beats
 * - `phaseless`: the same, with its phases drawn anew at equal spectrum about the same mean
 */
export const cutWays = ["held", "subtracted", "phaseless"] as const;
export type CutWay = (typeof cutWays)[number];

/** Whether the light level stays, or steps by one to three pulse heights, up or down, for as long as the cut lasts. */
export const cutLevels = ["kept", "shifted"] as const;
export type CutLevel = (typeof cutLevels)[number];

export interface Place {
  /** First instant without the pulse, and with it again, s. */
  readonly cut: number;
  readonly back: number;
}

/** Solid before the cut for this long, and after the return, s: by the hand labels, not by the engine. */
const before = 12;
const after = 5;
const shortest = 4;
const longest = 20;
/** Moving mean that tells quick noise from slow, s. */
const quickSeconds = 0.25;

/** The recording with what a cut needs worked out once. */
export interface Cuttable {
  readonly recording: MarkedRecording;
  /** Without the beat-locked average. */
  readonly rest: Float64Array;
  /** Of that, what a moving mean takes away. */
  readonly quick: Float64Array;
  /** Median height of the marked beats, channel units. */
  readonly height: number;
}

export function makeCuttable(recording: MarkedRecording): Cuttable {
  const { values, rate, feet, peaks } = recording;
  const pulse = pulsePart(values, rate, feet);
  const rest = values.map((x, n) => x - pulse[n]!);
  const half = Math.max(1, Math.round((quickSeconds / 2) * rate));
  const quick = rest.map((x, n) => {
    const near = rest.subarray(Math.max(0, n - half), n + half + 1);
    return x - near.reduce((sum, y) => sum + y, 0) / near.length;
  });
  const at = (time: number) => values[Math.round(time * rate)] ?? Number.NaN;
  const heights = feet.flatMap((foot) => {
    const peak = peaks.find((time) => time > foot && time < foot + 0.5);
    const height = peak === undefined ? Number.NaN : at(peak) - at(foot);
    return Number.isFinite(height) ? [height] : [];
  });
  heights.sort((a, b) => a - b);
  return { recording, rest, quick, height: heights[heights.length >> 1]! };
}

/** A random cut within labelled-good, marked signal; `null` if `tries` draws found none. */
export function choosePlace({ recording }: Cuttable, random: Random, tries = 500): Place | null {
  const { values, rate, windows, unreadable } = recording;
  const seconds = values.length / rate;
  for (let i = 0; i < tries; i++) {
    const cut = before + random() * (seconds - before - after - shortest);
    const back = cut + shortest + (longest - shortest) * random();
    const from = cut - before;
    const to = back + after;
    if (to > seconds || unreadable.some(([start, end]) => start < to && end > from)) continue;
    const good = windows.filter((one) => one.label === "good" && one.from < to && one.to > from);
    const covered = good.reduce((sum, one) => sum + Math.min(one.to, to) - Math.max(one.from, from), 0);
    if (covered < to - from - 1e-6) continue;
    if (!values.subarray(Math.floor(from * rate), Math.ceil(to * rate)).every(Number.isFinite)) continue;
    return { cut, back };
  }
  return null;
}

/** The samples of the whole recording, cut at `place`. */
export function cutPulse(
  source: Cuttable,
  place: Place,
  way: CutWay,
  level: CutLevel,
  seed: number,
): Float64Array {
  const { recording, rest, quick, height } = source;
  const { rate, values } = recording;
  const random = createRandom(seed);
  const first = Math.ceil(place.cut * rate);
  const end = Math.ceil(place.back * rate);
  const out = values.slice();
  const size = 1 + random() * 2;
  const offset = level === "kept" ? 0 : (random() < 0.5 ? -1 : 1) * size * height;
  if (way === "held") {
    for (let n = first; n < end; n++) out[n] = values[first - 1]! + quick[n]! + offset;
    return out;
  }
  const made = way === "subtracted" ? rest.subarray(first, end) : phaseless(rest, first, end, random);
  for (let n = first; n < end; n++) out[n] = made[n - first]! + offset;
  return out;
}

/** As long as the cut, drawn from a power of two of samples about it; the longest that is whole, for short recordings. */
function phaseless(rest: Float64Array, first: number, end: number, random: Random): Float64Array {
  const count = end - first;
  let size = 2 ** Math.ceil(Math.log2(count));
  if (size > rest.length) size /= 2;
  const start = Math.min(Math.max(0, first - ((size - count) >> 1)), rest.length - size);
  const piece = rest.slice(start, start + size).map((x) => (Number.isFinite(x) ? x : 0));
  const made = randomisePhases(piece, random);
  let mean = 0;
  for (let n = first; n < end; n++) mean += rest[n]! / count;
  return Float64Array.from({ length: count }, (_, n) => made[n % size]! + mean);
}
