/** Walks the stretches of a record: raw numbers in, blocks of physical values out, checksums at the end of each. */
import { type Block, excerpt, sampleIndex } from "../../model/index.js";
import type { ProblemLog } from "../problem-log.js";
import type { Source } from "./segment.js";
import { frameStep, type RawStream, room, type SignalFile } from "./signal-file.js";
import type { Stretch } from "./stretches.js";

/** Samples of all chosen channels, and of any one file, decoded at once. */
const chunkSamples = 65_536;

/** One file on its way through a stretch. */
interface Feed {
  readonly stream: RawStream;
  readonly raw: Int32Array;
  /** Samples of the chunk that are there. */
  held: number;
  total: number;
}

/**
 * @param perFrame samples in a frame, by channel
 * @param chosen   channel numbers
 */
export async function* recordBlocks(
  stretches: readonly Stretch[],
  perFrame: readonly number[],
  chosen: readonly number[],
  log: ProblemLog,
): AsyncGenerator<Block> {
  for (const stretch of stretches) yield* stretchBlocks(stretch, perFrame, chosen, log);
}

async function* stretchBlocks(
  stretch: Stretch,
  perFrame: readonly number[],
  chosen: readonly number[],
  log: ProblemLog,
): AsyncGenerator<Block> {
  if (chosen.length === 0) return;
  const sources = await stretch.sources();
  const all = chosen.reduce((sum, c) => sum + (perFrame[c] ?? 1), 0);
  const widest = chosen.reduce((most, c) => Math.max(most, sources[c]?.file.perFrame ?? 1), all);
  const most = Math.min(chunkSamples / widest, stretch.frames ?? chunkSamples);
  const chunk = frameStep * Math.max(1, Math.ceil(most / frameStep));
  const feeds = new Map<SignalFile, Feed>();
  for (const c of chosen) {
    const file = sources[c]?.file;
    if (file === undefined || feeds.has(file)) continue;
    const raw = new Int32Array(room(chunk * file.perFrame));
    feeds.set(file, { stream: file.start(), raw, held: 0, total: 0 });
  }
  const sums = new Float64Array(perFrame.length);
  const invalids = new Float64Array(perFrame.length);
  let done = 0;
  while (stretch.frames === null || done < stretch.frames) {
    let frames = stretch.frames === null ? chunk : Math.min(chunk, stretch.frames - done);
    let longest = 0;
    for (const [file, feed] of feeds) {
      feed.held = await feed.stream.next(frames, feed.raw);
      feed.total += feed.held;
      longest = Math.max(longest, Math.floor(feed.held / file.perFrame));
    }
    if (stretch.frames === null) frames = longest;
    if (frames === 0) break;
    for (const c of chosen) {
      const spf = perFrame[c] ?? 1;
      const values = new Float64Array(frames * spf);
      const source = sources[c] ?? null;
      const feed = source === null ? undefined : feeds.get(source.file);
      if (source === null || feed === undefined) values.fill(Number.NaN);
      else {
        const counted = fill(values, source, feed);
        sums[c] = (((sums[c] ?? 0) + counted.sum) % 65_536) as number;
        invalids[c] = (invalids[c] ?? 0) + counted.invalid;
      }
      yield { channel: c, first: sampleIndex((stretch.from + done) * spf), values };
    }
    done += frames;
  }
  for (const [file, feed] of feeds) checkLength(file, feed, stretch, done, log);
  for (const c of chosen) {
    const source = sources[c] ?? null;
    const feed = source === null ? undefined : feeds.get(source.file);
    if (source === null || feed === undefined || feed.total < done * source.file.perFrame) continue;
    checkSum(source, sums[c] ?? 0, invalids[c] ?? 0, stretch, log);
  }
}

/** Physical values of one signal's part of the chunk; NaN for invalid samples and beyond the end of the file. */
function fill(values: Float64Array, source: Source, feed: Feed): { sum: number; invalid: number } {
  const { raw, held } = feed;
  const { invalid, place, file, line } = source;
  const gain = line.gain ?? defaultGain;
  const { baseline, samplesPerFrame } = line;
  let sum = 0;
  let missing = 0;
  for (let n = 0, frame = place; n < values.length; frame += file.perFrame) {
    for (let s = 0; s < samplesPerFrame; s++, n++) {
      const at = frame + s;
      if (at >= held) {
        values[n] = Number.NaN;
        continue;
      }
      const stored = raw[at] as number;
      sum += stored;
      if (stored === invalid) {
        missing += 1;
        values[n] = Number.NaN;
      } else values[n] = (stored - baseline) / gain;
    }
  }
  return { sum: sum % 65_536, invalid: missing };
}

/** The format's gain for signals that state none; such signals are uncalibrated. */
export const defaultGain = 200;

function checkLength(file: SignalFile, feed: Feed, stretch: Stretch, frames: number, log: ProblemLog): void {
  const due = frames * file.perFrame;
  const where = `${stretch.where}, file ${excerpt(file.name)}`;
  if (feed.total < due) {
    const found = `${Math.floor(feed.total / file.perFrame)}; the rest is missing`;
    log.add("file-short", "lost-part", where, `${frames} frames`, found);
    return;
  }
  if (file.frames === null) return;
  const extra = file.frames * file.perFrame + file.odd - due;
  if (extra <= file.padding) return;
  if (file.frames > frames) {
    log.add(
      "file-longer",
      "note",
      where,
      `${frames} frames as stated`,
      `${file.frames}; the rest is not read`,
    );
  } else log.add("frame-torn", "note", where, "whole frames", `${extra} samples after the last whole frame`);
}

/**
 * Writers differ in what they add for an invalid sample: the code as stored, or the library's own
 * -32768. Both sums are right.
 */
function checkSum(source: Source, sum: number, invalid: number, stretch: Stretch, log: ProblemLog): void {
  const { checksum, description, format } = source.line;
  if (checksum === null) return;
  const folded = (value: number) => ((value % 65_536) + 65_536) % 65_536;
  const due = folded(checksum);
  const other = sum + invalid * (-32_768 - (source.invalid ?? 0));
  if (folded(sum) === due || folded(other) === due) return;
  const short = (value: number) => (folded(value) >= 32_768 ? folded(value) - 65_536 : folded(value));
  const where = `${stretch.where}, signal ${excerpt(description ?? `at place ${source.place}`)}`;
  const found = `${short(sum)}; some samples (format ${format}) are not what was recorded`;
  log.add("checksum-mismatch", "lost-part", where, `checksum ${short(checksum)}`, found);
}
