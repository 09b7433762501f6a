/**
 * Gathers what speaks for and against a stretch of pleth: its beats, their rhythm and shape, and
 * the faults of its raw samples. Measures only; what it means is said in capture-grade.ts.
 */
import { sortFirst } from "../dsp/sort-first.js";
import type { Beat } from "../model/beat.js";
import type { PulseShapes, ShapeMeter } from "./quality-shape.js";
import type { RawFault } from "./raw-fault.js";

/** Pulses compared at least: where a window has fewer, those before it help. */
const wanted = 4;
/** How far before the window they may lie, seconds. */
const reach = 8;
/** No beat of a pulse is farther from the next, seconds. */
const longestInterval = 3;
const most = 32;

export interface WindowEvidence {
  seconds: number;
  /** Seconds of the window without samples, still, and at a rail. */
  missing: number;
  flat: number;
  /** Longest stretch of stillness that touches the window, seconds. */
  longestFlat: number;
  clipped: number;
  longestClip: number;
  wraps: number;
  steps: number;
  /** Beats with their top in the window. */
  beats: number;
  /** Median interval, seconds; NaN below two beats. */
  interval: number;
  /** Longest stretch without a beat over the median interval. */
  gap: number;
  /** Longest over shortest interval. */
  intervalRatio: number;
  shapes: PulseShapes;
}

export interface WindowMeter {
  /**
   * @param beats  in order, from at least 11 s before the window on; later ones than `to` are left out
   * @param faults that touch the window, in any order
   * @returns an object that the next call uses again
   */
  measure(from: number, to: number, beats: readonly Beat[], faults: readonly RawFault[]): WindowEvidence;
}

export function createWindowMeter(shapes: ShapeMeter): WindowMeter {
  const feet = new Float64Array(most);
  const intervals = new Float64Array(most);
  const sorted = new Float64Array(most);
  const evidence: WindowEvidence = {
    seconds: 0,
    missing: 0,
    flat: 0,
    longestFlat: 0,
    clipped: 0,
    longestClip: 0,
    wraps: 0,
    steps: 0,
    beats: 0,
    interval: Number.NaN,
    gap: Number.NaN,
    intervalRatio: Number.NaN,
    shapes: shapes.measure(feet, intervals, 0, 1, 1),
  };

  function sumFaults(from: number, to: number, faults: readonly RawFault[]): void {
    evidence.missing = 0;
    evidence.flat = 0;
    evidence.longestFlat = 0;
    evidence.clipped = 0;
    evidence.longestClip = 0;
    evidence.wraps = 0;
    evidence.steps = 0;
    for (const fault of faults) {
      const overlap = Math.min(to, fault.to) - Math.max(from, fault.from);
      if (!(overlap > 0)) continue;
      if (fault.kind === "missing") evidence.missing += overlap;
      else if (fault.kind === "flat") {
        evidence.flat += overlap;
        evidence.longestFlat = Math.max(evidence.longestFlat, fault.to - fault.from);
      } else if (fault.kind === "rail") {
        evidence.clipped += overlap;
        evidence.longestClip = Math.max(evidence.longestClip, fault.to - fault.from);
      } else if (fault.kind === "wrap-around") evidence.wraps++;
      else evidence.steps++;
    }
  }

  return {
    measure(from, to, beats, faults) {
      evidence.seconds = to - from;
      sumFaults(from, to, faults);

      let end = beats.length;
      while (end > 0 && beats[end - 1]!.peak >= to) end--;
      let own = end;
      while (own > 0 && beats[own - 1]!.peak >= from) own--;
      evidence.beats = end - own;
      let first = own;
      while (
        first > 0 &&
        end - first < wanted &&
        beats[first - 1]!.peak >= from - reach &&
        (first === end || beats[first]!.peak - beats[first - 1]!.peak < longestInterval)
      ) {
        first--;
      }
      first = Math.max(first, end - most);

      // The interval that leads into the window belongs to it.
      const lead = Math.max(0, Math.min(first, own - 1));
      let gap = own > 0 && own < end ? 0 : Number.NaN;
      let count = 0;
      let shortest = Number.POSITIVE_INFINITY;
      let longest = 0;
      for (let b = lead + 1; b < end && count < most; b++) {
        const interval = beats[b]!.peak - beats[b - 1]!.peak;
        if (b >= own && interval > longest) longest = interval;
        if (b >= own && interval < shortest) shortest = interval;
        if (interval < longestInterval) sorted[count++] = interval;
      }
      sortFirst(sorted, count);
      const interval = count > 0 ? sorted[count >> 1]! : Number.NaN;
      const typical = count > 0 ? sorted[count >> 2]! : Number.NaN;
      evidence.interval = interval;
      gap = Math.max(
        own < end ? to - beats[end - 1]!.peak : to - from,
        own === 0 && own < end ? beats[own]!.peak - from : 0,
        longest,
      );
      evidence.gap = gap / interval;
      evidence.intervalRatio = longest > 0 ? longest / shortest : Number.NaN;

      let n = 0;
      for (let b = first; b < end; b++) {
        const { foot, peak } = beats[b]!;
        feet[n] = foot ?? peak - 0.15;
        const next = b + 1 < end ? (beats[b + 1]!.foot ?? beats[b + 1]!.peak - 0.15) - feet[n]! : Number.NaN;
        intervals[n] = next < longestInterval ? next : Number.NaN;
        n++;
      }
      shapes.measure(feet, intervals, count > 0 ? n : 0, typical, interval);
      return evidence;
    },
  };
}
