/**
 * The interval at which waves repeat, from the waves alone: every pair of waves votes for its
 * distance, strong pairs more. An autocorrelation of the waves, kept up to date wave by wave.
 */

import { createLogTable } from "../dsp/log-table.js";
import type { Hertz } from "../model/units.js";

/** Range of intervals, s: 240 down to 26 beats/min. */
const SHORTEST = 0.25;
const LONGEST = 2.3;
/** Width of a bin, natural logarithm: 4 %. */
const BIN = 0.04;
const BINS = Math.ceil(Math.log(LONGEST / SHORTEST) / BIN) + 1;
/** Half width of a vote in bins: intervals of a steady heart scatter by several per cent. */
const SPREAD = 3;
/** Votes fade with this time constant, s: a slow heart needs that long to repeat itself. */
const FADE = 6;
/** Waves below this size have no say: squared, they are lost among the others. */
const FAINT = 0.3;
const KEPT = 16;

export interface IntervalVotes {
  /** A wave at inner sample `time` with its size relative to the usual one, above 0. */
  add(time: number, size: number): void;
  /** Expected interval, inner samples; meaningless while `trust` is 0. */
  interval(): number;
  /** 0: no repeat worth the name; 1: a steady rhythm. */
  trust(): number;
  reset(): void;
}

/** @param firstRepeat share of the highest repeat that an earlier one needs to be preferred, 0 to 1 */
export function createIntervalVotes(innerRate: Hertz, firstRepeat: number): IntervalVotes {
  const shortest = SHORTEST * innerRate;
  const longest = LONGEST * innerRate;
  const logShortest = Math.log(shortest);
  const log = createLogTable(Math.ceil(longest));
  const votes = new Float64Array(BINS);
  const times = new Int32Array(KEPT);
  const sizes = new Float64Array(KEPT);
  // Fields of one object: a captured variable would be a new number on the heap at each change.
  // `top` is the highest vote, followed as votes are given: between two resets of the gain they only grow.
  const state = { count: 0, gain: 0.5, whole: 0.5, top: 0.5, last: 0, interval: 0.5, trust: 0.5 };
  reset();

  function reset(): void {
    votes.fill(0);
    state.count = 0;
    state.gain = 1;
    state.whole = 0;
    state.top = 0;
    state.last = 0;
    state.interval = 0;
    state.trust = 0;
  }

  /** Instead of all votes fading, new ones gain; now and then all are brought back into range. */
  function fade(time: number): void {
    state.gain *= Math.exp((time - state.last) / (FADE * innerRate));
    state.last = time;
    if (state.gain < 1e9) return;
    for (let b = 0; b < BINS; b++) votes[b]! /= state.gain;
    state.whole /= state.gain;
    state.top /= state.gain;
    state.gain = 1;
  }

  function vote(distance: number, weight: number): void {
    const centre = (log(distance) - logShortest) / BIN;
    const from = Math.max(0, Math.ceil(centre - SPREAD));
    const to = Math.min(BINS - 1, Math.floor(centre + SPREAD));
    let { top } = state;
    for (let b = from; b <= to; b++) {
      const v = votes[b]! + weight * (SPREAD - Math.abs(b - centre));
      votes[b] = v;
      if (v > top) top = v;
    }
    state.top = top;
  }

  function choose(): void {
    const { top } = state;
    state.interval = 0;
    state.trust = 0;
    if (top <= 0) return;
    for (let b = 0; b < BINS; b++) {
      const v = votes[b]!;
      if (v < firstRepeat * top) continue;
      const before = b > 0 ? votes[b - 1]! : 0;
      const after = b < BINS - 1 ? votes[b + 1]! : 0;
      if (v < before || v < after) continue;
      const bend = before - 2 * v + after;
      const shift = bend < 0 ? (0.5 * (before - after)) / bend : 0;
      state.interval = shortest * Math.exp((b + shift) * BIN);
      state.trust = Math.min(1, v / (SPREAD * state.whole));
      return;
    }
  }

  return {
    add(time, size) {
      if (size < FAINT) return;
      fade(time);
      const weight = state.gain;
      state.whole += weight * size * size;
      const { count } = state;
      for (let k = count - 1; k >= 0 && k >= count - KEPT; k--) {
        const distance = time - times[k % KEPT]!;
        if (distance > longest) break;
        const pair = Math.min(size, sizes[k % KEPT]!);
        if (distance >= shortest) vote(distance, weight * pair * pair);
      }
      times[count % KEPT] = time;
      sizes[count % KEPT] = size;
      state.count = count + 1;
      choose();
    },
    interval: () => state.interval,
    trust: () => state.trust,
    reset,
  };
}
