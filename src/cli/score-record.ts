/** One record read and held against its marks. */
import type { ReadOptions } from "../formats/recording.js";
import { isPleth } from "../model/index.js";
import { chooseReference } from "./choose-reference.js";
import type { Engine, Progress } from "./engine.js";
import { OpenFiles } from "./file-source.js";
import { readLabels, readMarks, readUnmarked } from "./marks-files.js";
import { openRecordingFile, openSource } from "./open-source.js";
import { type BeatScore, scoreBeats } from "./score-beats.js";
import type { MarkedRecord } from "./score-folder.js";
import { type Confusion, confuse } from "./score-grades.js";

export interface RecordScore {
  readonly name: string;
  readonly channel: string;
  /** `null` where no beats are marked. */
  readonly beats: BeatScore | null;
  /** `null` where no windows are labelled. */
  readonly grades: Confusion | null;
}

/** @throws {Stop} bad input */
export async function scoreRecord(
  record: MarkedRecord,
  options: ReadOptions,
  engine: Engine,
  progress: Progress,
): Promise<RecordScore> {
  const marked = record.beats === null ? null : await readMarks(record.beats, "P");
  const spans = record.unmarked === null ? [] : await readUnmarked(record.unmarked);
  const labelled = record.windows === null ? null : await readLabels(record.windows);
  const stated: ReadOptions = record.rate === null ? options : { ...options, rate: record.rate };
  const files = new OpenFiles();
  try {
    const channel = record.source.includes("#") ? null : await hinted();
    const source = await openSource(
      record.source + (channel === null ? "" : `#${channel}`),
      stated,
      engine,
      files,
    );
    const reference = await chooseReference(null, source, stated, engine, files);
    const heart = reference?.heart ?? null;
    const reading = await engine.read(source.recording, source.at, source.span, progress, heart);
    const peaks = reading.beats.map((beat) => beat.peak);
    const own = spans.filter((span) => span.channel === "" || span.channel === source.channel.name);
    // Unmarked spans of records with one pleth may name it in another way; those of an ECG never count.
    const names = new Set(source.recording.channels.map((one) => one.name));
    const foreign = spans.filter((span) => span.channel !== "" && !names.has(span.channel));
    const left = foreign.length > 0 && own.length === 0 ? [...own, ...foreign] : own;
    return {
      name: record.name,
      channel: source.channel.name,
      beats: marked === null ? null : scoreBeats(peaks, marked, left),
      grades: labelled === null ? null : confuse(reading.windows, labelled),
    };
  } finally {
    await files.close();
  }

  /** With several pleths and no list, the one the unmarked spans speak of. */
  async function hinted(): Promise<string | null> {
    const recording = await openRecordingFile(record.source, stated, engine, files);
    const pleths = recording.channels.filter(isPleth);
    if (pleths.length < 2) return null;
    return pleths.find((one) => spans.some((span) => span.channel === one.name))?.name ?? null;
  }
}
