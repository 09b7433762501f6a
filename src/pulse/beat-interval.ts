/**
 * The interval at which waves repeat, from the waves alone: every pair of waves votes for its
 * distance, strong pairs more. An autocorrelation of the waves, kept up to date wave by wave.
 */

const SHORTEST = 0.25;
const LONGEST = 2.3;
/** Width of a bin, natural logarithm: 4 %. */
const BIN = 0.04;
const BINS = Math.ceil(Math.log(LONGEST / SHORTEST) / BIN) + 1;
/** Half width of a vote in bins: intervals of a steady heart scatter by several per cent. */
const SPREAD = 3;
/** Votes fade with this time constant, s. */
const FADE = 6;
const KEPT = 16;

export interface IntervalVotes {
  /** A wave at `time` s with `size` relative to the usual rise. */
  add(time: number, size: number): void;
  /** Expected interval, s; meaningless while `trust` is 0. */
  interval(): number;
  /** 0: no repeat worth the name; 1: a steady rhythm. */
  trust(): number;
  reset(): void;
}

/** @param firstRepeat share of the highest repeat that an earlier one needs to be preferred, 0 to 1 */
export function createIntervalVotes(firstRepeat: number): IntervalVotes {
  const votes = new Float64Array(BINS);
  const times = new Float64Array(KEPT);
  const sizes = new Float64Array(KEPT);
  let count = 0;
  let whole = 0;
  let last = 0;
  let interval = 0;
  let trust = 0;

  function vote(distance: number, weight: number): void {
    const centre = Math.log(distance / SHORTEST) / BIN;
    const from = Math.max(0, Math.ceil(centre - SPREAD));
    const to = Math.min(BINS - 1, Math.floor(centre + SPREAD));
    for (let b = from; b <= to; b++) votes[b]! += weight * (1 - Math.abs(b - centre) / SPREAD);
  }

  function choose(): void {
    let top = 0;
    for (let b = 0; b < BINS; b++) if (votes[b]! > top) top = votes[b]!;
    interval = 0;
    trust = 0;
    if (top <= 0) return;
    for (let b = 0; b < BINS; b++) {
      const v = votes[b]!;
      if (v < firstRepeat * top) continue;
      const before = b > 0 ? votes[b - 1]! : 0;
      const after = b < BINS - 1 ? votes[b + 1]! : 0;
      if (v < before || v < after) continue;
      const bend = before - 2 * v + after;
      const shift = bend < 0 ? (0.5 * (before - after)) / bend : 0;
      interval = SHORTEST * Math.exp((b + shift) * BIN);
      trust = Math.min(1, v / whole);
      return;
    }
  }

  return {
    add(time, size) {
      const fade = Math.exp((last - time) / FADE);
      last = time;
      for (let b = 0; b < BINS; b++) votes[b]! *= fade;
      whole = whole * fade + size * size;
      for (let k = 1; k <= Math.min(count, KEPT); k++) {
        const i = (count - k) % KEPT;
        const distance = time - times[i]!;
        if (distance > LONGEST) break;
        const pair = Math.min(size, sizes[i]!);
        if (distance >= SHORTEST) vote(distance, pair * pair);
      }
      times[count % KEPT] = time;
      sizes[count % KEPT] = size;
      count++;
      choose();
    },
    interval: () => interval,
    trust: () => trust,
    reset() {
      votes.fill(0);
      count = 0;
      whole = 0;
      last = 0;
      interval = 0;
      trust = 0;
    },
  };
}
