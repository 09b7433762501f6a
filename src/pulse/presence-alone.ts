/**
 * Is there a pulse wave in a window of which nothing else is known? Weaker by several decibels than a test with
 * a reference, and never able to say that there is none: a weak smooth wave stays hidden.
 */
import type { PerMinute, Presence } from "../model/index.js";
import { type Comb, createComb } from "./presence-comb.js";
import { chanceOfScore } from "./presence-comb-table.js";
import { looksLikePulses } from "./presence-cycles.js";

/** Shortest and longest gap-free stretch tested, s. */
export const shortestAlone = 4.5;
export const longestAlone = 20;

/** Samples per second the search works at; faster channels are averaged down to between this and twice this. */
const workRate = 25;

export interface AlonePresence {
  readonly presence: Presence;
  /** Rate of the strongest rhythm; `null` unless `found` or `likely`. */
  readonly rate: PerMinute | null;
}

const combs = new Map<string, Comb>();

/** Tables of the last few window sizes; a pure function of its arguments, kept because a channel asks for the same again. */
function combFor(count: number, rate: number): Comb {
  const key = `${count} ${rate}`;
  const known = combs.get(key);
  if (known !== undefined) return known;
  if (combs.size >= 16) combs.clear();
  const made = createComb(count, rate);
  combs.set(key, made);
  return made;
}

/** First and last+1 index of the longest stretch without a missing sample. */
function longestStretch(values: ArrayLike<number>): { from: number; to: number } {
  let best = { from: 0, to: 0 };
  for (let from = 0; from < values.length; from++) {
    if (!(Math.abs(values[from]!) < 1e60)) continue;
    let to = from;
    while (to < values.length && Math.abs(values[to]!) < 1e60) to++;
    if (to - from > best.to - best.from) best = { from, to };
    from = to;
  }
  return best;
}

/** Orthonormal polynomials on `count` points, kept for the same reason. */
const bases = new Map<string, readonly Float64Array[]>();

function project(on: Float64Array, from: Float64Array): void {
  let dot = 0;
  for (let i = 0; i < from.length; i++) dot += on[i]! * from[i]!;
  for (let i = 0; i < from.length; i++) from[i] = from[i]! - dot * on[i]!;
}

function basisFor(count: number, degree: number): readonly Float64Array[] {
  const key = `${count} ${degree}`;
  const known = bases.get(key);
  if (known !== undefined) return known;
  if (bases.size >= 16) bases.clear();
  const made: Float64Array[] = [];
  for (let p = 0; p <= degree; p++) {
    const next = Float64Array.from({ length: count }, (_, i) => ((2 * i - count + 1) / count) ** p);
    for (const earlier of made) project(earlier, next);
    let square = 0;
    for (const x of next) square += x * x;
    for (let i = 0; i < next.length; i++) next[i] = next[i]! / Math.sqrt(square);
    made.push(next);
  }
  bases.set(key, made);
  return made;
}

/** Takes a polynomial off in place: one degree per four seconds, at least a straight line. */
export function takeDriftOff(values: Float64Array, seconds: number): void {
  const degree = Math.max(1, Math.round(seconds / 4));
  for (const one of basisFor(values.length, degree)) project(one, values);
}

/**
 * Tests a window by itself.
 *
 * Answers: `found` at p < 0.001, `likely` at p < 0.01, both only if the cycles look like pulses; else `cannot-tell`,
 * never `not-found`. The p is that of the rhythm alone, calibrated on pink noise; the shape guard comes on top.
 *
 * @param window.values samples, systole upwards, NaN where missing; the longest gap-free stretch of 4.5 to 20 s is used
 * @param window.rate samples per second, at least 20
 * @throws {RangeError} unless rate ≥ 20
 */
export function testAlone(window: { values: ArrayLike<number>; rate: number }): AlonePresence {
  const { values, rate } = window;
  if (!(rate >= 20 && Number.isFinite(rate))) throw new RangeError(`rate ${rate} is not 20 or more`);
  const stretch = longestStretch(values);
  const together = Math.max(1, Math.floor(rate / workRate));
  const slowRate = rate / together;
  const count = Math.min(
    Math.floor((stretch.to - stretch.from) / together),
    Math.floor(longestAlone * slowRate),
  );
  if (count < shortestAlone * slowRate) return answer("cannot-tell", 1, null);
  const level = values[stretch.from]!;
  const slow = new Float64Array(count);
  for (let n = 0; n < count; n++) {
    let sum = 0;
    for (let i = 0; i < together; i++) sum += values[stretch.from + n * together + i]! - level;
    slow[n] = sum / together;
  }
  takeDriftOff(slow, count / slowRate);
  const rhythm = combFor(count, slowRate).search(slow);
  if (rhythm === null) return answer("cannot-tell", 1, null);
  const p = chanceOfScore(rhythm.score, count / slowRate);
  if (p >= 0.01 || !looksLikePulses(slow, slowRate, rhythm)) return answer("cannot-tell", p, null);
  return answer(p < 0.001 ? "found" : "likely", p, 60 * rhythm.frequency);
}

function answer(said: Presence["answer"], p: number, rate: number | null): AlonePresence {
  return {
    presence: {
      answer: said,
      p,
      amplitude: null,
      upperLimit: null,
      upperLimitIndex: null,
      delay: null,
      reference: false,
    },
    rate: rate as PerMinute | null,
  };
}
