/**
 * Reads numeric MAT-files of level 5, plain or compressed, either byte order. A file that a WFDB header
 * beside it names is handed to the WFDB reader.
 *
 * Problem codes. Fatal: `not-matlab`, `matlab-level-4`, `matlab-hdf5`, `no-signals`, `size-absurd`, `rate-unknown`.
 * Lost part: `file-cut`, `element-type`, `too-many-variables`, `variable-damaged`, `size-differs`, `size-absurd`,
 * `checksum-mismatch`, `samples-missing`, `too-many-columns`, `gap-too-long`, `clock-restarted`. Notes:
 * `variable-skipped`, `length-differs`, `rate-differs`, `clock-set-aside`, `kind-assumed`, `time-unit-assumed`,
 * `time-unusable`, `clock-uneven`, `clock-holes`, `gap`, `gap-off-grid`, `time-missing`, `time-backwards`,
 * `time-outlier`, `time-doubled`.
 *
 * @see MathWorks, "MAT-File Format", version 5
 */
import { type Channel, excerpt, hertz, seconds } from "../../model/index.js";
import { inferKind, inferLoneKind } from "../channel-kind.js";
import { chosenChannels, noBlocks } from "../chosen-channels.js";
import { createProblemLog, type ProblemLog } from "../problem-log.js";
import { readFully } from "../read-fully.js";
import type { ByteSource, Folder, Reader, ReadOptions, Recording } from "../recording.js";
import { findHeader, wfdbReader } from "../wfdb/index.js";
import { findColumns, heldSamples, type Series } from "./columns.js";
import { headerBytes, matlabLevel } from "./level.js";
import { seriesBlocks } from "./series-blocks.js";
import { timingOf } from "./timing.js";
import { readVariables } from "./variable.js";

export const matlabReader: Reader = {
  format: "matlab",
  recognises: (name, head) =>
    /\.mat$/i.test(name) ||
    (String.fromCharCode(...head.subarray(0, 6)) === "MATLAB" && head.length >= headerBytes),
  open: openMatlab,
};

/** @param options `rate` overrides the file's own time and rate variables */
async function openMatlab(source: ByteSource, folder: Folder, options?: ReadOptions): Promise<Recording> {
  const header = await findHeader(source.name, folder);
  if (header !== null) return wfdbReader.open(header, folder, options);
  const log = createProblemLog();
  return (await openLevel5(source, options, log)) ?? nothing(log);
}

async function openLevel5(
  source: ByteSource,
  options: ReadOptions | undefined,
  log: ProblemLog,
): Promise<Recording | null> {
  const level = matlabLevel(await readFully(source, 0, headerBytes));
  if (level.kind !== "level-5") {
    const [code, found] = otherKinds[level.kind];
    log.add(code, "fatal", source.name, "a MAT-file of level 5 (saved with -v6 or -v7)", found);
    return null;
  }
  const variables = await readVariables(source, level.littleEndian, log);
  const columns = await findColumns(variables, source.name, log);
  if (columns === null) return null;
  const timing = await timingOf(columns, options?.rate, source.name, log);
  if (timing === null) return null;
  const { series, length } = columns;
  const { clock } = timing;
  const channels = series.map((one) =>
    channelOf(one, series.length === 1, clock.rate, clock.places, source, options, log),
  );
  for (const one of series) {
    const { name } = one;
    const held = heldSamples(one);
    if (held >= length) continue;
    const found = `${held}; the rest is missing`;
    log.add(
      "samples-missing",
      "lost-part",
      `${source.name}, variable ${excerpt(name)}`,
      `${length} samples`,
      found,
    );
  }
  return {
    format: "matlab",
    channels,
    startedAt: null,
    annotations: [],
    problems: log.problems,
    blocks: (which) => seriesBlocks(series, channels, length, timing, chosenChannels(channels.length, which)),
  };
}

const otherKinds = {
  "level-4": ["matlab-level-4", "a MAT-file of level 4, which needs a WFDB header beside it or saving again"],
  hdf5: ["matlab-hdf5", "a MAT-file of version 7.3, which is HDF5; save it again with -v7"],
  unknown: ["not-matlab", "no mark of a MAT-file at byte 126"],
} as const;

function channelOf(
  { name }: Series,
  alone: boolean,
  rate: number,
  samples: number | null,
  source: ByteSource,
  options: ReadOptions | undefined,
  log: ProblemLog,
): Channel {
  const { assumed, ...kind } = alone
    ? inferLoneKind({ name }, rate, options)
    : { ...inferKind({ name }, options), assumed: false };
  if (assumed) {
    const where = `${source.name}, variable ${excerpt(name)}`;
    log.add("kind-assumed", "note", where, "a name that says what was recorded", kind.because);
  }
  return { name, ...kind, unit: "", rate: hertz(rate), start: seconds(0), samples };
}

function nothing(log: ProblemLog): Recording {
  return {
    format: "matlab",
    channels: [],
    startedAt: null,
    annotations: [],
    problems: log.problems,
    blocks: noBlocks,
  };
}
