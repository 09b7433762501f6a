/**
 * How a stretch without recognisable pulses moves: at one pace a heart could have, at the pace of a breath, in the
 * band of the pulse without a pace, or in a narrow band above it. Asked before it is said that there is no wave.
 */
import type { TraceMemory } from "./trace-memory.js";

/** Paces tried, Hz; their distance in cycles per stretch. */
const slowest = 0.15;
const fastest = 4;
/** From this pace on a wave may be a pulse, and has overtones; 27 /min. */
const pulseFrom = 0.45;
const apart = 0.25;
const overtones = 3;
/** The base may bend: offset, slope and curve are taken off first, and credited to nobody; before bands are compared, two more. */
const bends = 3;
const allBends = 5;
/** Samples per second that suffice for three overtones of a slow pulse, at least. */
const workRate = 25;
/** Width of a narrow band and where the search for it begins and ends, Hz. */
const narrowWidth = 1.5;
const narrowFrom = 2.5;
const narrowTo = 12;
/** A stretch needs this many samples for a fit that says anything, and at most so many are looked at: 8 s. */
const fewest = 50;
const most = 256;

interface Basis {
  /** Orthonormal rows of `count`: first the bends, then per pace the wave and its overtones. */
  readonly bend: Float64Array;
  readonly waves: Float64Array;
  readonly paces: readonly number[];
  /** Rows of each pace: overtones above half the sampling rate are left out. */
  readonly rows: Int32Array;
  /** Orthonormal cosines of 0 to rate/2 Hz, half a cycle per stretch apart. */
  readonly cosines: Float64Array;
}

/** One set of rows per length and rate; a pure function of them, kept because windows are of one length. */
const known = new Map<string, Basis>();

function basisFor(count: number, rate: number): Basis {
  const key = `${count} ${rate}`;
  const found = known.get(key);
  if (found !== undefined) return found;
  if (known.size >= 8) known.clear();
  const step = (apart * rate) / count;
  const paces = Array.from(
    { length: Math.floor((fastest - slowest) / step) + 1 },
    (_, p) => slowest + p * step,
  );
  const bend = new Float64Array(allBends * count);
  const waves = new Float64Array(paces.length * 2 * overtones * count);
  const rows = new Int32Array(paces.length);
  for (let d = 0; d < allBends; d++) {
    for (let i = 0; i < count; i++) bend[d * count + i] = ((2 * i + 1) / count - 1) ** d;
    for (let e = 0; e < d; e++) takeOff(bend, d * count, bend, e * count, count);
    normalise(bend, d * count, count);
  }
  for (let p = 0; p < paces.length; p++) {
    const at = p * 2 * overtones * count;
    let row = 0;
    for (let h = 1; h <= (paces[p]! < pulseFrom ? 1 : overtones); h++) {
      const angle = (2 * Math.PI * h * paces[p]!) / rate;
      if (angle > 0.8 * Math.PI) break;
      for (const shift of [0, Math.PI / 2]) {
        const own = at + row * count;
        for (let i = 0; i < count; i++) waves[own + i] = Math.cos(angle * i - shift);
        for (let e = 0; e < bends; e++) takeOff(waves, own, bend, e * count, count);
        for (let e = 0; e < row; e++) takeOff(waves, own, waves, at + e * count, count);
        normalise(waves, own, count);
        row++;
      }
    }
    rows[p] = row;
  }
  const cosines = new Float64Array(count * count);
  for (let k = 0; k < count; k++) {
    for (let i = 0; i < count; i++) cosines[k * count + i] = Math.cos((Math.PI * k * (i + 0.5)) / count);
    normalise(cosines, k * count, count);
  }
  const made = { bend, waves, paces, rows, cosines };
  known.set(key, made);
  return made;
}

function takeOff(list: Float64Array, at: number, unit: Float64Array, unitAt: number, count: number): number {
  let dot = 0;
  for (let i = 0; i < count; i++) dot += list[at + i]! * unit[unitAt + i]!;
  for (let i = 0; i < count; i++) list[at + i]! -= dot * unit[unitAt + i]!;
  return dot;
}

function normalise(list: Float64Array, at: number, count: number): void {
  let square = 0;
  for (let i = 0; i < count; i++) square += list[at + i]! ** 2;
  const length = Math.sqrt(square);
  for (let i = 0; i < count; i++) list[at + i]! /= length;
}

export interface Rhythm {
  /** Largest share of the energy about a bent base that one pace from 27 to 240 /min and two overtones explain; white noise stays below 0.35. */
  share: number;
  /** The same for a bare wave of 9 to 27 /min, as a breath is. */
  slowShare: number;
  /** Share of that energy up to 4 Hz: about 0.5 for white noise, above 0.85 for anything smooth. */
  smooth: number;
  /** Largest share within 1.5 Hz between 2.5 and 12 Hz: about 0.3 for white noise, more for a vibration. */
  narrow: number;
}

/**
 * @returns a function that looks at the stretch `from` to `to` (seconds); its result is used again by the next call.
 *   All NaN if samples are missing or the stretch is shorter than 2 s.
 */
export function createRhythmMeter(trace: TraceMemory): (from: number, to: number) => Rhythm {
  const together = Math.max(1, Math.floor(trace.rate / workRate));
  const rate = trace.rate / together;
  const values = new Float64Array(most);
  const powers = new Float64Array(most);
  const rhythm: Rhythm = { share: 0, slowShare: 0, smooth: 0, narrow: 0 };

  function read(from: number, to: number): number {
    const first = Math.ceil(from * trace.rate);
    const end = Math.min(trace.length(), Math.floor(to * trace.rate));
    const count = Math.min(values.length, Math.floor((end - first) / together));
    const level = trace.sample(first);
    for (let n = 0; n < count; n++) {
      let sum = 0;
      for (let i = 0; i < together; i++) sum += trace.sample(first + n * together + i) - level;
      values[n] = sum;
    }
    return count;
  }

  const product = (rows: Float64Array, at: number, count: number) => {
    let dot = 0;
    for (let i = 0; i < count; i++) dot += values[i]! * rows[at + i]!;
    return dot;
  };

  function fitPaces({ paces, rows, waves }: Basis, count: number): void {
    for (let p = 0; p < paces.length; p++) {
      let explained = 0;
      for (let row = 0; row < rows[p]!; row++)
        explained += product(waves, (p * 2 * overtones + row) * count, count) ** 2;
      if (paces[p]! >= pulseFrom) rhythm.share = Math.max(rhythm.share, explained);
      else rhythm.slowShare = Math.max(rhythm.slowShare, explained);
    }
  }

  function splitBands({ cosines }: Basis, count: number): void {
    const perHertz = (2 * count) / rate;
    const width = Math.round(narrowWidth * perHertz);
    const first = Math.round(narrowFrom * perHertz);
    const end = Math.min(count, Math.round(narrowTo * perHertz));
    for (let k = 0; k < end; k++) powers[k] = product(cosines, k * count, count) ** 2;
    for (let k = 0; k <= fastest * perHertz; k++) rhythm.smooth += powers[k]!;
    let band = 0;
    for (let k = first; k < end; k++) {
      band += powers[k]!;
      if (k >= first + width) band -= powers[k - width]!;
      rhythm.narrow = Math.max(rhythm.narrow, band);
    }
  }

  /** Takes bends off and returns the energy that is left. */
  function straighten({ bend }: Basis, count: number, first: number, end: number): number {
    for (let d = first; d < end; d++) takeOff(values, 0, bend, d * count, count);
    let energy = 0;
    for (let i = 0; i < count; i++) energy += values[i]! ** 2;
    return energy > 0 ? energy : Number.NaN;
  }

  return (from, to) => {
    rhythm.share = rhythm.slowShare = rhythm.smooth = rhythm.narrow = 0;
    const count = read(from, to);
    const basis = count >= fewest ? basisFor(count, rate) : null;
    let energy = Number.NaN;
    if (basis !== null) {
      energy = straighten(basis, count, 0, bends);
      fitPaces(basis, count);
    }
    rhythm.share /= energy;
    rhythm.slowShare /= energy;
    if (basis !== null) {
      energy = straighten(basis, count, bends, allBends);
      splitBands(basis, count);
    }
    rhythm.smooth /= energy;
    rhythm.narrow /= energy;
    return rhythm;
  };
}
