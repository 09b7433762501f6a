/** From a source as typed to an open recording and the channel meant. */
import { basename } from "node:path";
import type { ReadOptions, Recording } from "../formats/recording.js";
import { readableRates } from "../limb/listen.js";
import { type Channel, describeProblem, type Problem } from "../model/index.js";
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
  if (fatal !== undefined) throw inputStop(plainText(describeProblem(withPath(fatal, file))));
  if (recording.channels.length === 0) throw inputStop(`${file}: holds no channels`);
  return recording;
}

/** Readers know the file's name only; in one line alone its path is needed, and once. */
function withPath(problem: Problem, file: string): Problem {
  const name = basename(file);
  const where = problem.where.startsWith(name)
    ? `${file}${problem.where.slice(name.length)}`
    : `${file}, ${problem.where}`;
  return { ...problem, where };
}

/**
 * A kind stated for a channel that is nowhere is a slip of the hand, and the channel meant would keep another kind.
 *
 * @throws {Stop} bad input
 */
export function mustHaveKinds({ kinds = {} }: ReadOptions, sources: readonly OpenedSource[]): void {
  const names = new Set(sources.flatMap(({ recording }) => recording.channels.map(({ name }) => name)));
  const stray = Object.keys(kinds).find((name) => !names.has(name));
  if (stray === undefined) return;
  const files = [...new Set(sources.map(({ file }) => file))].join(", ");
  throw inputStop(
    plainText(`${files}: no channel "${stray}" as --kind says; there are ${[...names].join(", ")}`),
  );
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
  const { rate } = channel;
  if (!(rate >= readableRates.from && rate <= readableRates.to)) {
    throw inputStop(
      plainText(
        `${name.file}: channel ${channel.name} has ${Number(rate.toPrecision(6))} samples per second; a pulse wave is read from ${readableRates.from} to ${readableRates.to}`,
      ),
    );
  }
  return { text, file: name.file, recording, at, channel, span: name.span };
}

/**
 * How long a table is shows only when it was read.
 *
 * @throws {Stop} bad input, if the span holds no sample
 */
export function mustHaveRead({ file, span }: OpenedSource, windows: readonly unknown[]): void {
  if (windows.length > 0) return;
  const from = span.from === null ? "holds no samples" : `no samples from ${span.from} s on; it ends before`;
  throw inputStop(`${file}: ${from}`);
}

/** Seconds from the first sample of the record to the end of the channel; `null` while unknown. */
export function lengthOf(channel: Channel): number | null {
  return channel.samples === null ? null : channel.start + channel.samples / channel.rate;
}
