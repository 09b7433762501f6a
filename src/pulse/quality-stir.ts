/**
 * How evenly a stretch without pulses moves: steady small noise is a quiet probe with nothing to see,
 * bursts and swings are movement that may hide a pulse.
 */
import type { TraceMemory } from "./trace-memory.js";

/** Length of the pieces whose ranges are compared, seconds; shorter than most intervals, longer than a rise. */
const pieceSeconds = 0.5;
const most = 64;
/** A piece is stirred if it ranges over this many times the quiet quarter. White noise stays below 2, brown below 5. */
const stirredFrom = 4;

export interface Stir {
  /** Range within half a second, channel units: lower quartile, median and upper quartile over the pieces. */
  quiet: number;
  median: number;
  upper: number;
  /** Widest piece over the quiet quarter. */
  top: number;
  /** Share of stirred pieces, 0 to 1. */
  share: number;
}

export function createStirMeter(trace: TraceMemory): (from: number, to: number) => Stir {
  const ranges = new Float64Array(most);
  const stir: Stir = { quiet: 0, median: 0, upper: 0, top: 0, share: 0 };
  return (from, to) => {
    const length = Math.round(pieceSeconds * trace.rate);
    const end = Math.min(trace.length(), Math.floor(to * trace.rate));
    let count = 0;
    for (let start = Math.ceil(from * trace.rate); start + length <= end && count < most; start += length) {
      let low = Number.POSITIVE_INFINITY;
      let high = Number.NEGATIVE_INFINITY;
      for (let k = start; k < start + length; k++) {
        const value = trace.sample(k);
        if (value < low) low = value;
        if (value > high) high = value;
      }
      if (high >= low) ranges[count++] = high - low;
    }
    const sorted = ranges.subarray(0, count).sort();
    stir.quiet = count > 0 ? sorted[count >> 2]! : 0;
    stir.median = count > 0 ? sorted[count >> 1]! : 0;
    stir.upper = count > 0 ? sorted[Math.min(count - 1, (3 * count) >> 2)]! : 0;
    stir.top = count > 0 ? sorted[count - 1]! / stir.quiet : 0;
    let stirred = 0;
    for (const range of sorted) if (range > stirredFrom * stir.quiet) stirred++;
    stir.share = count > 0 ? stirred / count : 0;
    return stir;
  };
}
