/**
 * Reads WFDB records: a header, the signal files it names, and the annotations beside them.
 *
 * Problem codes. Fatal: `header-missing`, `header-too-long`, `record-line`, `signal-line`, `segment-line`,
 * `too-many-lines`, `rate-invalid`, `frame-too-large`, `no-samples`. Lost part: `signal-lines-missing`,
 * `segment-lines-missing`, `signal-field`, `path-refused`, `file-missing`, `file-short`, `format-unknown`,
 * `mixed-formats`, `signals-apart`, `samples-per-frame`, `checksum-mismatch`, `length-absurd`, `gap-too-long`,
 * `segment-nested`, `signal-not-in-record`, `rate-differs`, `unit-differs`, `annotation-format`,
 * `annotations-cut`, `annotations-too-many`, `annotation-code`, `annotation-outside`, `flac-header`,
 * `flac-channels`, `flac-frame`, `flac-frame-size`. Notes: `record-name`, `start-time`, `length-unreadable`,
 * `length-differs`, `line-left-over`, `rate-assumed`, `uncalibrated`, `kind-assumed`, `mixed-offsets`,
 * `file-longer`, `frame-torn`, `segment-length`, `skew-differs`, `beats-twice`.
 *
 * @see "WFDB Applications Guide", header(5), signal(5), annot(5)
 */
import type { Annotation, Channel } from "../../model/index.js";
import { chosenChannels, noBlocks } from "../chosen-channels.js";
import { createProblemLog, type ProblemLog } from "../problem-log.js";
import type { ByteSource, Folder, Reader, ReadOptions, Recording } from "../recording.js";
import { readAnnotations } from "./annotations.js";
import { channelsOf, frameRate } from "./channels.js";
import { readHeader, type WfdbHeader } from "./header.js";
import { findHeader } from "./header-search.js";
import { onceLog } from "./once-log.js";
import { recordBlocks } from "./record-blocks.js";
import { openSegment } from "./segment.js";
import { mostPerFrame } from "./signal-file.js";
import { openSegmentHeader, plainLength, type Stretch, segmentStretches } from "./stretches.js";

export const wfdbReader: Reader = {
  format: "wfdb",
  /** By name only: a signal file has no mark of its own. `.mat` files with a header are passed on by the MATLAB reader. */
  recognises: (name) => /\.(hea|dat)$/i.test(name),
  open: openWfdb,
};

/**
 * Opens a record by its header, or by a signal file whose header lies beside it.
 *
 * @param options `rate` overrides the frames per second of the header
 */
async function openWfdb(source: ByteSource, folder: Folder, options?: ReadOptions): Promise<Recording> {
  const log = onceLog(createProblemLog());
  const header = /\.hea$/i.test(source.name) ? source : await findHeader(source.name, folder);
  if (header === null) {
    const name = source.name.replace(/\.[^.]*$/, "");
    log.add("header-missing", "fatal", source.name, `a header ${name}.hea beside it that names it`, "none");
    return nothing(log);
  }
  const parsed = await readHeader(header, log);
  if (parsed === null) return nothing(log);
  const rate = frameRate(parsed, header.name, options, log);
  if (rate === null) return nothing(log);
  return openRecord(parsed, header.name, folder, rate, options, log);
}

async function openRecord(
  header: WfdbHeader,
  file: string,
  folder: Folder,
  rate: number,
  options: ReadOptions | undefined,
  log: ProblemLog,
): Promise<Recording> {
  const layout = header.segments === null ? header : await layoutOf(header, file, folder, log);
  const perFrame = (layout?.signals ?? []).map(({ samplesPerFrame }) => samplesPerFrame);
  const sum = perFrame.reduce((all, count) => all + count, 0);
  if (perFrame.some((count) => count < 1) || sum > mostPerFrame) {
    const expected = `1 to ${mostPerFrame} samples in a frame`;
    log.add("frame-too-large", "fatal", file, expected, `${sum} in ${perFrame.length} signals`);
    return nothing(log);
  }
  if (layout === null) return nothing(log);
  let stretches: readonly Stretch[];
  let frames: number | null;
  if (header.segments === null) {
    const segment = await openSegment(header, file, folder, log);
    const known = segment.files.map((one) => one.frames);
    const held = known.includes(null) ? null : Math.max(0, ...known.map((count) => count ?? 0));
    frames = plainLength(header, file, held, rate, sum, log);
    const sources = async () => segment.sources;
    stretches = [{ from: 0, frames, where: file, sources }];
    if (header.signals.length > 0 && held === 0) {
      log.add("no-samples", "fatal", file, "signal files with samples", "none that can be read");
    }
  } else {
    const wanted = layout.signals.map((line, n) => ({
      name: line.description ?? `signal ${n}`,
      samplesPerFrame: line.samplesPerFrame,
      unit: line.unit,
      skew: line.skew,
    }));
    const planned = segmentStretches(header, file, folder, rate, wanted, sum, log);
    ({ stretches, frames } = planned);
  }
  const channels = channelsOf(layout.signals, rate, frames, file, options, log);
  const end = frames === null ? null : frames / rate;
  const annotations = await readAnnotations(file.replace(/\.hea$/i, ""), folder, rate, end, log);
  return recording(header, channels, annotations, log, (which) =>
    recordBlocks(stretches, perFrame, chosenChannels(channels.length, which), log),
  );
}

/**
 * The header that says which channels a multi-segment record has: the layout segment (length 0) of a
 * variable one, else the first segment that can be opened.
 */
async function layoutOf(
  master: WfdbHeader,
  file: string,
  folder: Folder,
  log: ProblemLog,
): Promise<WfdbHeader | null> {
  const tried = (master.segments ?? []).filter(({ name }) => name !== "~").slice(0, 64);
  for (const { name } of tried) {
    const header = await openSegmentHeader(name, folder, `${file}, segment ${name}`, log);
    if (header !== null && header.signals.length > 0) return header;
  }
  log.add("no-samples", "fatal", file, "a segment that can be opened", `none of ${tried.length}`);
  return null;
}

function recording(
  header: WfdbHeader | null,
  channels: readonly Channel[],
  annotations: readonly Annotation[],
  log: ProblemLog,
  blocks: Recording["blocks"],
): Recording {
  return {
    format: "wfdb",
    channels,
    startedAt: header?.startedAt ?? null,
    annotations,
    problems: log.problems,
    blocks,
  };
}

function nothing(log: ProblemLog): Recording {
  return recording(null, [], [], log, noBlocks);
}
