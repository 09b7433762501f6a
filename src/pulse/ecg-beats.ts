/**
 * R waves of an ECG lead, as a reference for the pleth. Knows nothing of P and T waves or of
 * rhythm: it says when the ventricles fired, to a fraction of a sample.
 */
import { createMovingMean } from "../dsp/moving-mean.js";
import { type Hertz, type Seconds, seconds } from "../model/units.js";

/** A QRS complex lives between about 8 and 25 Hz: the difference of two moving means keeps that band. */
const SHORT = 0.024;
const LONG = 0.1;
/** Energy is gathered over about the length of one complex, seconds. */
const COMPLEX = 0.1;
/** No second complex within this time, seconds: 240 beats/min. */
const REFRACTORY = 0.25;
/** A candidate needs this share of the usual energy, and a lower one when it is overdue. */
const SHARE = 0.22;
/** Within this time a weaker wave is taken for a T wave, seconds, unless it has this share of the last energy. */
const T_WAVE = 0.36;
const T_SHARE = 0.5;
/** How many past complexes set the usual energy. */
const PAST = 8;
/** Energy is learned over this time before the first decision, seconds. */
const LEARN = 2;

export interface EcgBeatFinder {
  /** Samples in order, any unit; NaN = missing, and ends what was learned. */
  push(values: Float64Array): void;
  /** Decides what is pending. */
  end(): void;
}

/**
 * Calls `onBeat` once per R wave, in order, about 0.4 s late in signal time (up to 2 s at the start).
 * After Pan and Tompkins, IEEE Trans Biomed Eng 1985;32:230 (band-pass, energy in a moving window, threshold
 * following the signal; constants ours), with the peak then taken from the unsquared trace.
 *
 * @param rate samples per second, 100 or more for timing to a few milliseconds
 */
export function createEcgBeatFinder(rate: Hertz, onBeat: (time: Seconds) => void): EcgBeatFinder {
  const length = (s: number) => Math.max(1, Math.round(s * rate));
  const short = createMovingMean(length(SHORT) | 1);
  const long = createMovingMean(length(LONG) | 1);
  const gather = createMovingMean(length(COMPLEX) | 1);
  const lagLong = ((length(LONG) | 1) - 1) / 2;
  const lagShort = ((length(SHORT) | 1) - 1) / 2;
  const lagGather = ((length(COMPLEX) | 1) - 1) / 2;
  const refractory = length(REFRACTORY);
  const reach = length(COMPLEX);

  // Energy and band-passed trace of the last stretch; index = sample number modulo size.
  const size = 1 << Math.ceil(Math.log2(rate * (LEARN + 2)));
  const energy = new Float64Array(size);
  const band = new Float64Array(size);
  const shorts = new Float64Array(size);
  const past = new Float64Array(PAST);
  const sorted = new Float64Array(PAST);
  let pastCount = 0;
  let taken = 0;
  let runStart = 0;
  let decided = 0;
  let lastBeat = -1;
  let lastEnergy = 0;
  let interval: number = rate;

  function usualEnergy(): number {
    const count = Math.min(pastCount, PAST);
    const part = sorted.subarray(0, count);
    part.set(past.subarray(0, count));
    part.sort();
    return part[count >> 1] as number;
  }

  function restart(): void {
    for (const stage of [short, long, gather]) stage.reset();
    runStart = taken;
    decided = taken;
    lastBeat = -1;
    pastCount = 0;
  }

  /** Highest energy of each half second of the learning time gives the first usual energy: their median. */
  function learn(until: number): void {
    const piece = Math.max(1, Math.round(rate / 2));
    for (let from = runStart; from < until && pastCount < PAST; from += piece) {
      let most = 0;
      for (let i = from; i < Math.min(from + piece, until); i++)
        most = Math.max(most, energy[i % size] as number);
      past[pastCount++] = most;
    }
    // Half seconds without a complex pull the median down at slow rates; the upper ones know better.
    const usual = usualEnergy();
    let most = 0;
    for (let i = 0; i < pastCount; i++) most = Math.max(most, past[i] as number);
    past.fill(Math.max(usual, 0.4 * most), 0, pastCount);
  }

  /** The largest deflection near sample `i`, with a parabola through three samples. */
  function place(i: number): number {
    const centre = i - lagGather;
    let best = -1;
    let at = centre;
    for (let k = Math.ceil(centre - reach); k <= centre + reach; k++) {
      if (k < runStart || k >= taken) continue;
      const height = band[k % size] as number;
      if (height > best) {
        best = height;
        at = k;
      }
    }
    const b = band[at % size] as number;
    const a = at > runStart ? (band[(at - 1) % size] as number) : b;
    const c = at + 1 < taken ? (band[(at + 1) % size] as number) : b;
    const bend = a - 2 * b + c;
    const shift = bend < 0 ? (0.5 * (a - c)) / bend : 0;
    return at + Math.max(-0.5, Math.min(0.5, shift)) - lagLong;
  }

  /** Looks at sample `i` for a summit of energy that holds over the refractory time on both sides. */
  function decide(i: number): void {
    const here = energy[i % size] as number;
    if (here <= 0) return;
    const from = Math.max(runStart, i - refractory);
    const to = Math.min(taken - 1, i + refractory);
    for (let k = from; k <= to; k++) {
      const other = energy[k % size] as number;
      if (other > here || (other === here && k < i)) return;
    }
    const since = lastBeat < 0 ? Number.POSITIVE_INFINITY : i - lastBeat;
    const overdue = Math.max(1, since / (1.5 * interval));
    if (here < (SHARE * usualEnergy()) / Math.min(overdue, 3)) return;
    if (since < T_WAVE * rate && here < T_SHARE * lastEnergy) return;
    if (since < 3 * interval) interval += 0.2 * (since - interval);
    past[pastCount % PAST] = Math.min(here, 3 * usualEnergy());
    pastCount++;
    lastBeat = i;
    lastEnergy = here;
    onBeat(seconds(Math.max(0, place(i) / rate)));
  }

  function advance(until: number): void {
    if (pastCount === 0) {
      if (until - runStart < LEARN * rate) return;
      learn(until);
    }
    for (; decided < until; decided++) decide(decided);
  }

  return {
    push(values) {
      for (let n = 0; n < values.length; n++) {
        const x = values[n] as number;
        if (x - x !== 0) {
          if (pastCount === 0 && taken > runStart) learn(taken);
          for (; decided < taken; decided++) decide(decided);
          taken++;
          restart();
          continue;
        }
        const slot = taken % size;
        // Both means centred on the same sample: the short one waits in its ring for the long one.
        shorts[slot] = short.next(x);
        const centre = taken - (lagLong - lagShort);
        const level = long.next(x);
        const difference = (shorts[centre % size] as number) - level;
        // Of two equal means rounding alone would be left, and taken for the largest wave there is.
        const y =
          centre >= runStart + lagLong && Math.abs(difference) > 1e-9 * Math.abs(level) ? difference : 0;
        band[slot] = y;
        energy[slot] = gather.next(y * y);
        taken++;
        advance(taken - refractory);
      }
    },
    end() {
      if (pastCount === 0 && taken > runStart) learn(taken);
      for (; decided < taken; decided++) decide(decided);
    },
  };
}
