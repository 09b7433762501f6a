/** One record of one piece, opened: its signals matched to the channels of the whole recording. */
import { excerpt } from "../../model/index.js";
import type { ProblemLog } from "../problem-log.js";
import type { Folder } from "../recording.js";
import { ucumUnit } from "../ucum-unit.js";
import type { WfdbHeader } from "./header.js";
import type { SignalLine } from "./header-fields.js";
import { invalidCode } from "./sample-format.js";
import { groupSignals, openSignalFile, type SignalFile } from "./signal-file.js";

/** Where a channel's samples lie in this segment. */
export interface Source {
  readonly file: SignalFile;
  /** Of the channel's first sample in each frame. */
  readonly place: number;
  readonly line: SignalLine;
  readonly invalid: number | null;
}

export interface Segment {
  /** Header it was opened by, for problems. */
  readonly header: string;
  readonly files: readonly SignalFile[];
  /** By signal of its own header; `null` where nothing can be read. */
  readonly sources: readonly (Source | null)[];
}

export async function openSegment(
  header: WfdbHeader,
  name: string,
  folder: Folder,
  log: ProblemLog,
): Promise<Segment> {
  const files: SignalFile[] = [];
  const sources: (Source | null)[] = [];
  const groups = groupSignals(header.signals);
  for (const group of groups) {
    const file = await openSignalFile(group, groups, folder, name, log);
    if (file !== null) files.push(file);
    let place = 0;
    for (const line of group.lines) {
      sources.push(file === null ? null : { file, place, line, invalid: invalidCode(line.format) });
      place += line.samplesPerFrame;
    }
  }
  return { header: name, files, sources };
}

/** Name of a signal for the user and for matching; the format numbers signals from 0. */
export function signalName(line: SignalLine, n: number): string {
  return line.description ?? `signal ${n}`;
}

/** What a segment's signal must share with the channel it continues. */
export interface Wanted {
  readonly name: string;
  readonly samplesPerFrame: number;
  /** As written; `null` when the header says nothing. */
  readonly unit: string | null;
  readonly skew: number;
}

/**
 * The segment's signal for each channel, by name; the second signal of a name continues the second
 * channel of that name. `null` where the segment lacks it or it can't continue the channel.
 */
export function matchSources(
  segment: Segment,
  lines: readonly SignalLine[],
  wanted: readonly Wanted[],
  log: ProblemLog,
): (Source | null)[] {
  const byName = new Map<string, number[]>();
  for (const [n, line] of lines.entries()) {
    const name = signalName(line, n);
    byName.set(name, [...(byName.get(name) ?? []), n]);
  }
  const matched = wanted.map((channel) => {
    const n = byName.get(channel.name)?.shift();
    const line = n === undefined ? undefined : lines[n];
    if (n === undefined || line === undefined) return null;
    const where = `${segment.header}, signal ${excerpt(channel.name)}`;
    if (line.samplesPerFrame !== channel.samplesPerFrame) {
      const expected = `${channel.samplesPerFrame} samples per frame as in the record`;
      log.add("rate-differs", "lost-part", where, expected, `${line.samplesPerFrame}; left out here`);
      return null;
    }
    if (line.unit !== null && channel.unit !== null && ucumUnit(line.unit) !== ucumUnit(channel.unit)) {
      const found = `${excerpt(line.unit)}; left out here`;
      log.add("unit-differs", "lost-part", where, `${excerpt(channel.unit)} as in the record`, found);
      return null;
    }
    if (line.skew !== channel.skew) {
      const found = `${line.skew} frames; times here are off by the difference`;
      log.add("skew-differs", "note", where, `a skew of ${channel.skew} frames as in the record`, found);
    }
    return segment.sources[n] ?? null;
  });
  const strangers = [...byName].filter(([, left]) => left.length > 0).map(([name]) => excerpt(name));
  if (strangers.length > 0) {
    const found = `${excerpt(strangers.join(", "))}; left out`;
    log.add("signal-not-in-record", "lost-part", segment.header, "only signals that the record lists", found);
  }
  return matched;
}
