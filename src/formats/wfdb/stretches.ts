/** The record as stretches in order of time: one for a plain record, one per segment otherwise. */
import { excerpt } from "../../model/index.js";
import type { ProblemLog } from "../problem-log.js";
import type { Folder } from "../recording.js";
import { openCompanion } from "./companion.js";
import { readHeader, type WfdbHeader } from "./header.js";
import { matchSources, openSegment, type Source, type Wanted } from "./segment.js";

/** A silence longer than this is taken for a damaged number, not filled: seconds, and samples of all channels. */
export const longestSilence = 7 * 86_400;
export const mostMissing = 2 ** 28;
/** Nor is any record longer than this, in seconds and in samples of all channels. */
const longestRecord = 62 * 86_400;
const mostSamples = 2 ** 32;

export interface Stretch {
  /** Frames before it. */
  readonly from: number;
  /** `null` only in a plain record that doesn't know its length. */
  readonly frames: number | null;
  /** Name for problems. */
  readonly where: string;
  /** Where each channel's samples lie, by channel; nulls throughout a silence. */
  sources(): Promise<readonly (Source | null)[]>;
}

/** Frames of a plain record: as stated, unless the files hold none of the claim's absurd rest. */
export function plainLength(
  header: WfdbHeader,
  file: string,
  held: number | null,
  rate: number,
  perFrame: number,
  log: ProblemLog,
): number | null {
  const stated = header.record.frames;
  if (stated === null || Number.isNaN(stated)) return held;
  const missing = stated - (held ?? 0);
  if (missing > longestSilence * rate || missing * perFrame > mostMissing) {
    const found = `${held ?? "an unknown number"} in the files; the rest is not filled in`;
    log.add("length-absurd", "lost-part", file, `${stated} frames as stated`, found);
    return held;
  }
  return stated;
}

/** Opens the header of a segment; `null` after a problem. */
export async function openSegmentHeader(
  name: string,
  folder: Folder,
  where: string,
  log: ProblemLog,
): Promise<WfdbHeader | null> {
  const source = await openCompanion(folder, `${name}.hea`, where, log);
  if (source === null) return null;
  const header = await readHeader(source, log, "lost-part");
  if (header?.segments != null) {
    log.add(
      "segment-nested",
      "lost-part",
      source.name,
      "a segment of one piece",
      "a header that lists segments",
    );
    return null;
  }
  return header;
}

/**
 * One stretch per segment. Headers and files of segments are opened when their turn comes, so that a
 * record of thousands holds one at a time.
 *
 * @param perFrame samples of all channels in a frame
 */
export function segmentStretches(
  master: WfdbHeader,
  file: string,
  folder: Folder,
  rate: number,
  wanted: readonly Wanted[],
  perFrame: number,
  log: ProblemLog,
): { readonly stretches: readonly Stretch[]; readonly frames: number } {
  const stretches: Stretch[] = [];
  const silent = wanted.map(() => null);
  let from = 0;
  let silence = 0;
  for (const [n, { name, frames }] of (master.segments ?? []).entries()) {
    const where = `${file}, segment ${n} ${excerpt(name)}`;
    if (frames === 0) continue;
    // A stated length is believed, and filled where the samples are missing, only while it could be true.
    if (name === "~") silence += frames;
    const times = Math.max(1, perFrame);
    if (silence > longestSilence * rate || silence * times > mostMissing) {
      const expected = `silences of at most ${longestSilence} s in all`;
      log.add("gap-too-long", "lost-part", where, expected, `${frames} frames more; the rest is not read`);
      break;
    }
    if (from + frames > longestRecord * rate || (from + frames) * times > mostSamples) {
      const expected = `at most ${longestRecord} s and ${mostSamples} samples in all`;
      log.add("length-absurd", "lost-part", where, expected, `${frames} frames more; the rest is not read`);
      break;
    }
    const sources = async () => {
      if (name === "~") return silent;
      const header = await openSegmentHeader(name, folder, where, log);
      if (header === null) return silent;
      noteDifferences(header, frames, rate, master, where, log);
      if (header.record.rate !== null && header.record.rate !== master.record.rate) return silent;
      const segment = await openSegment(header, `${name}.hea`, folder, log);
      return matchSources(segment, header.signals, wanted, log);
    };
    stretches.push({ from, frames, where: `${name}.hea`, sources });
    from += frames;
  }
  if (master.record.frames !== null && master.record.frames !== from) {
    const expected = `${master.record.frames} frames as the record line says`;
    log.add("length-differs", "note", file, expected, `${from} in the segments; these are taken`);
  }
  return { stretches, frames: from };
}

function noteDifferences(
  header: WfdbHeader,
  frames: number,
  rate: number,
  master: WfdbHeader,
  where: string,
  log: ProblemLog,
): void {
  const own = header.record.frames;
  if (own !== null && own !== frames) {
    log.add(
      "segment-length",
      "note",
      where,
      `${frames} frames as the record says`,
      `${own} in its own header`,
    );
  }
  if (header.record.rate !== null && header.record.rate !== master.record.rate) {
    const expected = `${master.record.rate ?? rate} frames per second as in the record`;
    log.add("rate-differs", "lost-part", where, expected, `${header.record.rate}; left out`);
  }
}
