/**
 * What the upstrokes of the last believable pulses were like: how large, how far apart, of what shape, and how
 * much of the rise is soon lost again. The loss watch holds new upstrokes against it.
 */
import { sortFirst } from "../dsp/sort-first.js";
import type { Beat } from "../model/beat.js";
import type { TraceMemory } from "./trace-memory.js";

/** A rise is what the trace gains within this time, s: the upstroke of a pulse. */
const riseSeconds = 0.15;
/** A rise is the largest of its surroundings once this much has passed without a larger one, s. */
const settleSeconds = 0.12;
/** The stretch of an upstroke that is compared with the usual one begins this long before its largest rise, s. */
const leadSeconds = 0.22;
/** A rise that has not begun to fall after this time, or this share of an interval, was a step and no pulse, s. */
const fallSeconds = 0.4;
const fallShare = 0.5;
/**
 * Silence that is a loss, in usual intervals: at least the first, up to the second where the rhythm is so
 * uneven that 1.5 times its longest interval says so. With the watch's delays it stays within 3.
 */
const silence = 2.4;
const unevenSilence = 2.75;
const unevenShare = 1.5;
/** No interval counts for more than this many usual ones. */
const farthest = 2.2;
/** How far each pulse moves the usual interval towards the last one, and how far it may go from what was learned. */
const follow = 0.25;
const shortest = 0.75;
const longestShare = 1.25;
/** This share of the upstrokes learned from may be less alike than `alike` says. */
const unlikeShare = 0.1;
/** Beats the usual values are taken from: at least, and at most, which no window exceeds. */
const fewest = 3;
const most = 64;

export interface UsualUpstroke {
  /** Inner samples of a rise, and after its largest until it is settled. */
  readonly span: number;
  readonly settle: number;
  /** Usual rise, channel units; the watch lets it follow each pulse. */
  rise: number;
  /** Usual interval, and the silence that is a loss, inner samples. */
  interval: number;
  patience: number;
  /** Longest interval learned from, inner samples; never below the usual one. */
  longest: number;
  /** The correlation with their own mean that nearly all upstrokes learned from reach. */
  alike: number;
  /** How much of its rise a pulse has usually lost again after how many samples. */
  fall: number;
  fallTime: number;
  /**
   * Learns from the beats with their top from `from` to `to`, s.
   *
   * @param beats  in order
   * @param before whether the two before them may help if they are fewer than three
   * @returns false if there are too few rises; then nothing is changed
   */
  learn(beats: readonly Beat[], from: number, to: number, before: boolean): boolean;
  /** Lets the usual interval and the silence that is a loss follow the last interval, inner samples. */
  follow(interval: number): void;
  /** Correlation of the trace about a largest rise with the usual upstroke, −1 to 1. */
  likeness(at: number): number;
  /** The top that follows a rise. */
  topAfter(n: number): number;
}

export function createUsualUpstroke(trace: TraceMemory): UsualUpstroke {
  const { rate, ring, mask } = trace;
  const span = Math.max(1, Math.round(riseSeconds * rate));
  const settle = Math.max(1, Math.round(settleSeconds * rate));
  const lead = Math.round(leadSeconds * rate);
  const count = lead + settle + 1;
  const shape = new Float64Array(count);
  // Of the beats learned from: largest rises, where they are, and the intervals between.
  const rises = new Float64Array(most);
  const places = new Int32Array(most);
  const intervals = new Float64Array(most);
  const likenesses = new Float64Array(most);
  let learned = 0.5;

  /** The top that follows a rise. */
  function topAfter(n: number): number {
    let top = n;
    let high = trace.sample(n);
    for (let k = n + 1; k <= n + settle; k++) {
      const value = trace.sample(k);
      if (value > high) {
        high = value;
        top = k;
      }
    }
    return top;
  }

  /** Where a beat gains most within `riseSeconds`; −1 if it does not rise. */
  function largestRise(beat: Beat): number {
    const first = Math.floor((beat.foot ?? beat.peak - riseSeconds) * rate);
    const last = Math.min(Math.round(beat.peak * rate), trace.length() - 1);
    let largest = 0;
    let at = -1;
    for (let k = Math.max(first, trace.oldest() + span); k <= last; k++) {
      const rise = ring[k & mask]! - ring[(k - span) & mask]!;
      if (rise > largest) {
        largest = rise;
        at = k;
      }
    }
    return at;
  }

  /** The mean upstroke about the first `found` places, of zero mean and unit length; all NaN if one is cut off. */
  function learnShape(found: number): void {
    shape.fill(0);
    for (let p = 0; p < found; p++) {
      const first = places[p]! - lead;
      if (first < trace.oldest() || first + count > trace.length()) shape.fill(Number.NaN);
      for (let i = 0; i < count; i++) shape[i]! += ring[(first + i) & mask]!;
    }
    let sum = 0;
    for (let i = 0; i < count; i++) sum += shape[i]!;
    const mean = sum / count;
    let power = 0;
    for (let i = 0; i < count; i++) {
      shape[i]! -= mean;
      power += shape[i]! * shape[i]!;
    }
    const length = Math.sqrt(power);
    for (let i = 0; i < count; i++) shape[i]! /= length;
  }

  /** Correlation of the trace about a largest rise with the usual upstroke. */
  function likeness(at: number): number {
    const first = at - lead;
    let mean = 0;
    for (let i = 0; i < count; i++) mean += ring[(first + i) & mask]!;
    mean /= count;
    let power = 0;
    let cross = 0;
    for (let i = 0; i < count; i++) {
      const x = ring[(first + i) & mask]! - mean;
      power += x * x;
      cross += x * shape[i]!;
    }
    return cross / Math.sqrt(power);
  }

  return {
    span,
    settle,
    rise: Number.NaN,
    interval: Number.NaN,
    patience: Number.NaN,
    longest: Number.NaN,
    alike: 0.5,
    fall: 0.5,
    fallTime: 1,
    learn(beats, from, to, before) {
      let end = beats.length;
      while (end > 0 && beats[end - 1]!.peak >= to) end--;
      let first = end;
      while (first > 0 && beats[first - 1]!.peak >= from) first--;
      if (end - first < fewest && before) first = Math.max(0, first - 2);
      first = Math.max(first, end - most);
      let found = 0;
      for (let b = first; b < end; b++) {
        const at = largestRise(beats[b]!);
        if (at < lead) continue;
        places[found] = at;
        rises[found++] = trace.sample(at) - trace.sample(at - span);
      }
      const gaps = end - first - 1;
      if (found < 2 || gaps < 1) return false;
      for (let i = 0; i < gaps; i++) intervals[i] = beats[first + i + 1]!.peak - beats[first + i]!.peak;
      sortFirst(intervals, gaps);
      const middle = intervals[gaps >> 1]!;
      const longest = Math.min(intervals[gaps - 1]!, farthest * middle);
      learnShape(found);
      this.fallTime = Math.round(Math.min(fallSeconds, fallShare * middle) * rate);
      let fall = 0;
      for (let p = 0; p < found; p++) {
        const at = places[p]!;
        fall += (trace.sample(topAfter(at)) - trace.sample(at + this.fallTime)) / rises[p]! / found;
      }
      this.fall = fall;
      for (let p = 0; p < found; p++) likenesses[p] = likeness(places[p]!);
      sortFirst(likenesses, found);
      this.alike = likenesses[Math.floor(unlikeShare * found)]!;
      sortFirst(rises, found);
      this.rise = rises[found >> 1]!;
      this.interval = middle * rate;
      learned = this.interval;
      this.longest = longest * rate;
      this.patience =
        Math.min(unevenSilence * middle, Math.max(silence * middle, unevenShare * longest)) * rate;
      return true;
    },
    follow(interval) {
      const was = this.interval;
      const moved = was + follow * (interval - was);
      this.interval = Math.min(longestShare * learned, Math.max(shortest * learned, moved));
      this.patience *= this.interval / was;
    },
    likeness,
    topAfter,
  };
}
