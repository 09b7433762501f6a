/**
 * Which waves are beats: the best chain of waves, where each wave brings what its size is worth and
 * each interval costs what its strangeness is worth. A wave is judged by what comes before and after it: a
 * second wave of one pulse leaves two short intervals behind, an early beat only one.
 */
import type { BeatSettings } from "./beat-settings.js";

const KEPT = 256;
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
  /** Expected interval, s; of no account while `trust` is 0. */
  interval: number;
  /** In `interval`, 0 to 1. */
  trust: number;
}

export interface BeatChain {
  /** Appends a wave; times must not fall. */
  add(id: number, time: number, size: number): void;
  /**
   * Takes the next wave that is decided to be a beat.
   *
   * @param before waves up to this time are decided now, s
   * @param now    everything up to this time is known, s
   * @returns the id of a beat, or −1 when nothing more is decided
   */
  decide(before: number, now: number, expected: Expectation): number;
  reset(): void;
}

export function createBeatChain({ rhythm, slack, pause, even }: BeatSettings): BeatChain {
  // Two strange intervals never outweigh a wave of the usual size: a wrong idea of the rhythm must not hide beats.
  const most = (0.5 * Math.log(1 / even)) / rhythm;
  const ids = new Int32Array(KEPT);
  const times = new Float64Array(KEPT);
  const sizes = new Float64Array(KEPT);
  const scores = new Float64Array(KEPT);
  /** First wave of the best chain that ends here. */
  const starts = new Int32Array(KEPT);
  /** Waves `head` up to `count` are undecided. */
  let head = 0;
  let count = 0;
  /** Time of the last decided beat; NaN before the first. */
  let rootTime = Number.NaN;

  function cost(distance: number, interval: number, trust: number): number {
    if (trust <= 0) return distance < UNTRUSTED ? rhythm * Math.min(most, Math.log(UNTRUSTED / distance)) : 0;
    const off = Math.log(distance / interval);
    const strange = off < -slack ? Math.min(most, -off - slack) : off > slack ? pause * (off - slack) : 0;
    const quick = trust < 1 && distance < UNTRUSTED ? Math.min(most, Math.log(UNTRUSTED / distance)) : 0;
    return rhythm * (trust * strange + (1 - trust) * quick);
  }

  /** Number of the first wave on the best chain from the root through what is known; −1 if none. */
  function firstOfBest(now: number, { size, interval, trust }: Expectation): number {
    const half = even * size;
    let bestEnd = -1;
    let top = Number.NEGATIVE_INFINITY;
    for (let j = head; j < count; j++) {
      const at = j % KEPT;
      const time = times[at]!;
      const since = time - rootTime;
      let best = 0;
      if (since < CLOSEST) best = Number.NEGATIVE_INFINITY;
      else if (since >= CLOSEST) best = -cost(since, interval, trust);
      let start = j;
      for (let i = head; i < j; i++) {
        const distance = time - times[i % KEPT]!;
        if (distance < CLOSEST) break;
        const through = scores[i % KEPT]! - cost(distance, interval, trust);
        if (through > best) {
          best = through;
          start = starts[i % KEPT]!;
        }
      }
      const worth = Math.log(sizes[at]! / half);
      const score = (worth > MOST ? MOST : worth < LEAST ? LEAST : worth) + best;
      scores[at] = score;
      starts[at] = start;
      const overdue = now - time;
      const end = overdue > interval && trust > 0 ? score - cost(overdue, interval, trust) : score;
      if (end > top) {
        top = end;
        bestEnd = j;
      }
    }
    if (bestEnd < 0) return -1;
    const nothing = Number.isNaN(rootTime) ? 0 : -cost(Math.max(now - rootTime, interval), interval, trust);
    return top > nothing ? starts[bestEnd % KEPT]! : -1;
  }

  return {
    add(id, time, size) {
      const at = count % KEPT;
      ids[at] = id;
      times[at] = time;
      sizes[at] = size;
      count++;
      if (count - head > KEPT) head = count - KEPT;
    },
    decide(before, now, expected) {
      while (head < count && times[head % KEPT]! <= before) {
        const first = firstOfBest(now, expected);
        const at = head % KEPT;
        const isBeat = first === head;
        head++;
        if (!isBeat) continue;
        rootTime = times[at]!;
        return ids[at]!;
      }
      return -1;
    },
    reset() {
      head = 0;
      count = 0;
      rootTime = Number.NaN;
    },
  };
}
