/**
 * Which waves are beats: the best chain of waves, where each wave brings what its size is worth and
 * each interval costs what its strangeness is worth. A wave is judged by what comes before and after it: a
 * second wave of one pulse leaves two short intervals behind, an early beat only one.
 */
import { createLogTable } from "../dsp/log-table.js";
import type { Hertz } from "../model/units.js";
import type { BeatSettings } from "./beat-settings.js";

const KEPT = 512;
const MASK = KEPT - 1;
/** No two beats are closer than this, s: 270 beats/min. */
const CLOSEST = 0.22;
/** Without a trusted rhythm, intervals below this are held to be the second wave of a pulse, s. */
const UNTRUSTED = 0.45;
/** Bounds of what a size is worth: beyond them it says nothing more. */
const MOST = 1;
const LEAST = -3;

/** What is known of the pulse at the time of a decision. */
export interface Expectation {
  /** Usual size of a pulse, channel units. */
  size: number;
  /** Expected interval, inner samples; of no account while `trust` is 0. */
  interval: number;
  /** In `interval`, 0 to 1. */
  trust: number;
}

/** Waves are numbered from 0 as they are added; times are inner samples. */
export interface BeatChain {
  /** Appends a wave; times are whole and never fall. */
  add(time: number, size: number): void;
  /** Time of the oldest undecided wave; −1 if there is none. */
  pending(): number;
  /**
   * Decides the oldest undecided wave.
   *
   * @param now everything up to this time is known
   * @returns its number if it is a beat, else −1
   */
  decide(now: number, expected: Expectation): number;
  /** A new run of samples: no interval reaches back over its start. */
  breakOff(): void;
}

export function createBeatChain(innerRate: Hertz, { rhythm, slack, pause, even }: BeatSettings): BeatChain {
  // Two strange intervals never outweigh a wave of the usual size: a wrong idea of the rhythm must not hide beats.
  const most = (0.5 * Math.log(1 / even)) / rhythm;
  const closest = CLOSEST * innerRate;
  const logUntrusted = Math.log(UNTRUSTED * innerRate);
  const log = createLogTable(1023);
  const times = new Int32Array(KEPT);
  const logSizes = new Float64Array(KEPT);
  const scores = new Float64Array(KEPT);
  /** First wave of the best chain that ends here. */
  const starts = new Int32Array(KEPT);
  /** Waves `head` up to `count` are undecided. */
  let head = 0;
  let count = 0;
  /** Time of the last beat of this run; −1 before the first. */
  let root = -1;

  function cost(distance: number, logInterval: number, trust: number): number {
    const logDistance = log(distance);
    const off = logDistance - logInterval;
    const strange = off < -slack ? Math.min(most, -off - slack) : off > slack ? pause * (off - slack) : 0;
    const quick = logDistance < logUntrusted ? Math.min(most, logUntrusted - logDistance) : 0;
    return rhythm * (trust * strange + (1 - trust) * quick);
  }

  /** Number of the first wave on the best chain from the root through what is known; −1 if none. */
  function firstOfBest(now: number, expected: Expectation): number {
    const { trust } = expected;
    const interval = trust > 0 ? expected.interval : 1;
    const logInterval = Math.log(interval);
    const even0 = Math.log(even * expected.size);
    let bestEnd = -1;
    let top = Number.NEGATIVE_INFINITY;
    for (let j = head; j < count; j++) {
      const at = j & MASK;
      const time = times[at]!;
      let best = 0;
      if (root >= 0) {
        const since = time - root;
        best = since < closest ? Number.NEGATIVE_INFINITY : -cost(since, logInterval, trust);
      }
      let start = j;
      for (let i = head; i < j; i++) {
        const before = i & MASK;
        const distance = time - times[before]!;
        if (distance < closest) break;
        const through = scores[before]! - cost(distance, logInterval, trust);
        if (through > best) {
          best = through;
          start = starts[before]!;
        }
      }
      const worth = logSizes[at]! - even0;
      const score = Math.min(MOST, Math.max(LEAST, worth)) + best;
      scores[at] = score;
      starts[at] = start;
      // A chain that ended longer ago than a beat lasts pays for the beat it lacks.
      const overdue = now - time;
      const end = trust > 0 && overdue > interval ? score - cost(overdue, logInterval, trust) : score;
      if (end > top) {
        top = end;
        bestEnd = j;
      }
    }
    if (bestEnd < 0) return -1;
    const nothing = root < 0 ? 0 : -cost(Math.max(now - root, Math.round(interval)), logInterval, trust);
    return top > nothing ? starts[bestEnd & MASK]! : -1;
  }

  return {
    add(time, size) {
      const at = count & MASK;
      times[at] = time;
      logSizes[at] = Math.log(size);
      count++;
      if (count - head > KEPT) head = count - KEPT;
    },
    pending: () => (head < count ? times[head & MASK]! : -1),
    decide(now, expected) {
      const wave = head;
      if (wave >= count) return -1;
      const isBeat = firstOfBest(now, expected) === wave;
      head++;
      if (!isBeat) return -1;
      root = times[wave & MASK]!;
      return wave;
    },
    breakOff() {
      head = count;
      root = -1;
    },
  };
}
