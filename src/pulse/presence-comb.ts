/**
 * The strongest pulse-like rhythm of a short window when nothing but the window is known: a comb of four
 * harmonics in the phases of the template, over all rates and delays, against the noise floor around each.
 */
import { nthSmallest } from "../dsp/nth-smallest.js";
import { createFourier } from "../dsp/spectrum.js";
import { genericTemplate, harmonicCount } from "./presence-template.js";

/** Rates searched: 30 to 220 beats/min. */
const slowest = 0.5;
const fastest = 220 / 60;
const delays = 24;
/** Noise floor: median over ±max(0.8 Hz, 0.6 f); narrower, the pulse itself lifts it in a 5 s window. */
const floorWidth = 0.8;
const floorShare = 0.6;
const lowestFloor = 0.3;
const floorNodes = 18;
const taperShare = 0.2;
/** Slowest breathing looked for below a rhythm, Hz. */
const slowestBreath = 0.15;

export interface Rhythm {
  /** Matched comb output at the best rate and delay. */
  readonly score: number;
  /** Beats per second, and the time of a foot after the window's first sample, s. */
  readonly frequency: number;
  readonly foot: number;
  /** Best output at a half and a third of the frequency, down to 9/min, same scale: breathing is slower than it looks. */
  readonly slower: number;
  /** Power of the second to fourth harmonic over the floor, chi-square with six degrees of freedom without a pulse. */
  readonly upper: number;
}

const cosines = Float64Array.from({ length: harmonicCount * delays }, (_, i) => {
  return Math.cos((2 * Math.PI * (Math.floor(i / delays) + 1) * (i % delays)) / delays);
});
const sines = Float64Array.from({ length: harmonicCount * delays }, (_, i) => {
  return Math.sin((2 * Math.PI * (Math.floor(i / delays) + 1) * (i % delays)) / delays);
});

export interface Comb {
  /**
   * @param values `count` finite samples with drift taken off
   * @returns `null` if the window holds no variation
   */
  search(values: Float64Array): Rhythm | null;
}

/** Prepares tables for windows of `count` samples at `rate`/s, rate at least 20. */
export function createComb(count: number, rate: number): Comb {
  const size = 2 ** Math.ceil(Math.log2(4 * count));
  const fourier = createFourier(size);
  const step = rate / size;
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  const taper = new Float64Array(count);
  const edge = Math.floor((count * taperShare) / 2);
  let weight = 0;
  for (let n = 0; n < count; n++) {
    const inside = Math.min(n, count - 1 - n);
    taper[n] = inside < edge ? 0.5 - 0.5 * Math.cos((Math.PI * (inside + 0.5)) / edge) : 1;
    weight += taper[n]! ** 2;
  }
  const scale = 1 / Math.sqrt(weight);
  const top = size / 2;
  const needed = Math.min(top, Math.ceil((harmonicCount * fastest) / step) + 1);
  // Phases count from the middle of the window, where they change least with the rate.
  const centre = (count - 1) / 2;
  const turnRe = Float64Array.from(
    { length: needed },
    (_, k) => Math.cos((2 * Math.PI * k * centre) / size) * scale,
  );
  const turnIm = Float64Array.from(
    { length: needed },
    (_, k) => Math.sin((2 * Math.PI * k * centre) / size) * scale,
  );
  const floor = new Float64Array(needed);
  const power = new Float64Array(top);
  const scratch = new Float64Array(top);
  const apart = Math.max(1, Math.round(size / count));
  const nodes = Array.from({ length: floorNodes }, (_, i) => {
    return Math.round(
      (slowest * (Math.min(rate / 2, harmonicCount * fastest) / slowest) ** (i / (floorNodes - 1))) / step,
    );
  });

  function findFloor(): boolean {
    const first = Math.ceil(lowestFloor / step);
    let lastNode = 0;
    let lastLog = Number.NaN;
    for (const node of nodes) {
      const half = Math.max(floorWidth, floorShare * node * step) / step;
      let length = 0;
      for (let k = Math.max(first, Math.round(node - half)); k < top && k <= node + half; k += apart) {
        scratch[length++] = power[k]!;
      }
      if (length === 0) return false;
      const middle = nthSmallest(scratch, length, length >> 1) / Math.LN2;
      if (!(middle > 0 && Number.isFinite(middle))) return false;
      const log = Math.log(middle);
      for (let k = lastNode; k <= node && k < needed; k++) {
        const share = node > lastNode ? (k - lastNode) / (node - lastNode) : 1;
        floor[k] = Math.exp(Number.isNaN(lastLog) ? log : lastLog + share * (log - lastLog));
      }
      lastNode = node;
      lastLog = log;
    }
    for (let k = lastNode; k < needed; k++) floor[k] = Math.exp(lastLog);
    return true;
  }

  const cRe = new Float64Array(harmonicCount);
  const cIm = new Float64Array(harmonicCount);
  let foundDelay = 0;

  /** Best output over the delays at one frequency, or `least` if it cannot be beaten. */
  function outputAt(frequency: number, least: number): number {
    let information = 0;
    let bound = 0;
    let used = 0;
    for (let h = 1; h <= harmonicCount; h++) {
      const k = Math.round((h * frequency) / step);
      if (k >= needed) break;
      const yRe = re[k]!;
      const yIm = im[k]!;
      const gRe = genericTemplate.re[h - 1]!;
      const gIm = genericTemplate.im[h - 1]!;
      const noise = floor[k]!;
      cRe[used] = (gRe * yRe + gIm * yIm) / noise;
      cIm[used] = (gRe * yIm - gIm * yRe) / noise;
      information += (gRe * gRe + gIm * gIm) / noise;
      bound += Math.sqrt(cRe[used]! ** 2 + cIm[used]! ** 2);
      used++;
    }
    const unit = Math.sqrt(2 / information);
    let best = least;
    if (bound * unit <= least) return best;
    for (let d = 0; d < delays; d++) {
      let sum = 0;
      for (let h = 0; h < used; h++) {
        sum += cRe[h]! * cosines[h * delays + d]! - cIm[h]! * sines[h * delays + d]!;
      }
      if (sum * unit > best) {
        best = sum * unit;
        foundDelay = d;
      }
    }
    return best;
  }

  return {
    search(values) {
      re.fill(0);
      im.fill(0);
      for (let n = 0; n < count; n++) re[n] = values[n]! * taper[n]!;
      fourier.transform(re, im);
      for (let k = 0; k < top; k++) power[k] = (re[k]! ** 2 + im[k]! ** 2) * scale ** 2;
      if (!findFloor()) return null;
      for (let k = 0; k < needed; k++) {
        const line = re[k]!;
        re[k] = line * turnRe[k]! - im[k]! * turnIm[k]!;
        im[k] = line * turnIm[k]! + im[k]! * turnRe[k]!;
      }
      let score = 0;
      let frequency = 0;
      let delay = 0;
      for (let tried = slowest; tried <= fastest; tried += step / 2) {
        const output = outputAt(tried, score);
        if (output > score) {
          score = output;
          frequency = tried;
          delay = foundDelay;
        }
      }
      if (frequency === 0) return null;
      let slower = 0;
      for (const part of [2, 3]) {
        for (let off = -1; off <= 1; off++) {
          const tried = frequency / part + (off * step) / 2;
          if (tried >= slowestBreath) slower = outputAt(tried, slower);
        }
      }
      let upper = 0;
      for (let h = 2; h <= harmonicCount; h++) {
        const k = Math.round((h * frequency) / step);
        if (k < needed) upper += (2 * power[k]!) / floor[k]!;
      }
      const period = 1 / frequency;
      const foot = (((centre / rate + (delay / delays) * period) % period) + period) % period;
      return { score, frequency, foot, slower, upper };
    },
  };
}
