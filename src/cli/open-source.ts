/** From a source as typed to an open recording and the channel meant. */
import type { ReadOptions, Recording } from "../formats/recording.js";
import { type Channel, describeProblem } from "../model/index.js";
import { chooseChannel } from "./choose-channel.js";
import type { Engine, Span } from "./engine.js";
import { type OpenFiles, standingOf } from "./file-source.js";
import { plainText } from "./plain-text.js";
import { parseSourceName } from "./source-name.js";
import { inputStop } from "./stop.js";

export interface OpenedSource {
  /** As typed. */
  readonly text: string;
  readonly file: string;
  readonly recording: Recording;
  /** Position in the recording's list. */
  readonly at: number;
  readonly channel: Channel;
  readonly span: Span;
}

/** @throws {Stop} bad input */
export async function openRecordingFile(
  file: string,
  options: ReadOptions,
  engine: Engine,
  files: OpenFiles,
): Promise<Recording> {
  const recording = await engine.open(await files.source(file), files.beside(file), options);
  const fatal = recording.problems.find((problem) => problem.weight === "fatal");
  if (fatal !== undefined) throw inputStop(plainText(`${file}: ${describeProblem(fatal)}`));
  if (recording.channels.length === 0) throw inputStop(`${file}: holds no channels`);
  return recording;
}

/** @throws {Stop} bad input */
export async function openSource(
  text: string,
  options: ReadOptions,
  engine: Engine,
  files: OpenFiles,
): Promise<OpenedSource> {
  const name = await parseSourceName(text, standingOf);
  const recording = await openRecordingFile(name.file, options, engine, files);
  const at = chooseChannel(recording, name.file, name.channel);
  const channel = recording.channels[at]!;
  const length = lengthOf(channel);
  if (name.span.from !== null && length !== null && name.span.from >= length) {
    throw inputStop(`${name.file}: ends at ${length.toFixed(1)} s, before ${name.span.from} s`);
  }
  return { text, file: name.file, recording, at, channel, span: name.span };
}

/** Seconds from the first sample of the record to the end of the channel; `null` while unknown. */
export function lengthOf(channel: Channel): number | null {
  return channel.samples === null ? null : channel.start + channel.samples / channel.rate;
}
