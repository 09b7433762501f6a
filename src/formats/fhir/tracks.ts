/**
 * Puts series into channels: one per dimension, and series of one key that follow each other in
 * time become one channel with the pauses between them as missing samples.
 */
import type { ProblemLog } from "../problem-log.js";
import type { Series } from "./series.js";

/** Part of a channel: the samples of one series. */
export interface Segment {
  readonly series: Series;
  /** Sample of the channel where it begins. */
  readonly first: number;
  /** Samples left out at its start because their time is taken. */
  readonly skip: number;
}

export interface Track {
  readonly name: string;
  /** In order, without overlap. Never empty. */
  readonly segments: readonly Segment[];
  readonly dimension: number;
  /** Milliseconds of the file's clock; `null` when no time is stated. */
  readonly instant: number | null;
  /** All samples, pauses included. */
  readonly samples: number;
}

/** A longer pause starts a new channel instead of being filled. Seconds; working default. */
const longestGap = 7 * 86_400;
/** Stated times are rounded; up to this many samples off is no gap. */
const tolerance = 1.5;

export function layTracks(all: readonly Series[], log: ProblemLog): Track[] {
  const groups = new Map<string, Series[]>();
  for (const series of all) {
    const group = groups.get(series.key);
    if (group === undefined) groups.set(series.key, [series]);
    else group.push(series);
  }
  const tracks: Track[] = [];
  for (const group of groups.values()) {
    for (const segments of chain(group, log)) {
      const { series } = segments[0] as Segment;
      const last = segments[segments.length - 1] as Segment;
      const samples = last.first + last.series.sampled.samples - last.skip;
      const instant = series.effective?.instant ?? null;
      for (let dimension = 0; dimension < series.sampled.dimensions; dimension++) {
        const name = series.sampled.dimensions === 1 ? series.name : `${series.name} ${dimension + 1}`;
        tracks.push({ name, segments, dimension, instant, samples });
      }
    }
  }
  return tracks;
}

function chain(group: readonly Series[], log: ProblemLog): Segment[][] {
  const alone = (series: Series) => [{ series, first: 0, skip: 0 }];
  const timed = group.filter(({ effective }) => effective?.instant != null);
  const untimed = group.filter(({ effective }) => effective?.instant == null);
  if (group.length > 1 && untimed.length > 0) {
    const { where } = untimed[0] as Series;
    log.add(
      "effective",
      "note",
      where,
      "the time of each part of a series",
      `${untimed.length} parts without; channels of their own`,
    );
  }
  const at = (series: Series) => series.effective?.instant ?? 0;
  const sorted = timed.toSorted((a, b) => at(a) - at(b));
  const chains: Segment[][] = [];
  let current: Segment[] = [];
  let begin = 0;
  let end = 0;
  for (const series of sorted) {
    const { rate, samples } = series.sampled;
    const stated = Math.round(((at(series) - begin) / 1000) * rate);
    if (current.length === 0 || stated - end > longestGap * rate) {
      current = alone(series);
      chains.push(current);
      begin = at(series);
      end = samples;
      continue;
    }
    const first = Math.abs(stated - end) <= tolerance ? end : Math.max(stated, end);
    const skip = first - stated > tolerance ? Math.min(first - stated, samples) : 0;
    if (skip > 0) {
      const found = `${skip} samples whose time is taken; left out`;
      log.add("overlap", "lost-part", series.where, "parts of a series that follow each other", found);
    } else if (first > end) {
      const missing = `${Number(((first - end) / rate).toFixed(6))} s missing before it`;
      log.add("gap", "note", series.where, "parts of a series that follow each other", missing);
    }
    if (skip === samples) continue;
    current.push({ series, first, skip });
    end = first + samples - skip;
  }
  return [...chains, ...untimed.map(alone)];
}
