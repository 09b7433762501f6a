/** What a recording is held against: an ECG lead or marks of heart beats, on the same clock. */
import { resolve } from "node:path";
import type { ReadOptions, Recording } from "../formats/recording.js";
import type { HeartSource } from "../limb/index.js";
import type { Seconds } from "../model/index.js";
import type { Option } from "./arguments.js";
import { channelNamed, kindName, listed } from "./choose-channel.js";
import type { Engine } from "./engine.js";
import { type OpenFiles, standingOf } from "./file-source.js";
import { holdsMarks, readMarks } from "./marks-files.js";
import { type OpenedSource, openRecordingFile } from "./open-source.js";
import { plainText } from "./plain-text.js";
import { parseSourceName } from "./source-name.js";
import { inputStop, usageStop } from "./stop.js";

export const referenceOption: Option = {
  name: "reference",
  value: "FILE#CHANNEL",
  help: "an ECG lead to hold the pleth against, #CHANNEL for one of the same record, or a file of beat marks; default the first ECG lead in the record; none switches it off",
};

export interface ChosenReference {
  readonly file: string;
  /** The lead; `null` for marks. */
  readonly channel: string | null;
  readonly heart: HeartSource;
}

/**
 * @param wanted as typed; `null` takes the first ECG lead in the source's own record, `none` nothing
 * @param other the other side: a reference in its file alone runs on its clock and is not used here
 * @throws {Stop} bad input, or usage
 */
export async function chooseReference(
  wanted: string | null,
  source: OpenedSource,
  options: ReadOptions,
  engine: Engine,
  files: OpenFiles,
  other: OpenedSource | null = null,
): Promise<ChosenReference | null> {
  if (wanted === "none") return null;
  if (wanted === null) return ownLead(source);
  const name = await parseSourceName(wanted.startsWith("#") ? source.file + wanted : wanted, standingOf);
  const { file, channel, span } = name;
  if (span.from !== null || span.to !== null) {
    throw usageStop(`--reference ${wanted}: takes no times; it is used where the source is read`);
  }
  const own = resolve(file) === resolve(source.file);
  if (!own && other !== null && resolve(file) === resolve(other.file)) return ownLead(source);
  if (channel === null && (await holdsMarks(file))) {
    const beats = (await readMarks(file, "R")) as Seconds[];
    if (beats.length === 0) throw inputStop(`${file}: no marks of kind R, the peaks of R waves`);
    return { file, channel: null, heart: { kind: "marks", beats } };
  }
  const recording = own ? source.recording : await openRecordingFile(file, options, engine, files);
  if (!own) mustStartTogether(file, recording, source);
  if (channel !== null) {
    const at = channelNamed(recording, file, channel);
    const found = recording.channels[at]!;
    if (found.kind !== "ecg") {
      throw inputStop(
        `${file}: channel ${plainText(found.name)} is taken for ${kindName(found)} (${plainText(found.because)}); a reference is an ECG lead`,
      );
    }
    return leadOf(file, recording, at);
  }
  const lead = firstLead(recording);
  if (lead !== null) return leadOf(file, recording, lead);
  const beats = await markedBeats(recording);
  if (beats.length > 0) return { file, channel: null, heart: { kind: "marks", beats } };
  throw inputStop(`${file}: no ECG lead and no marks of beats; it has ${listed(recording.channels)}`);
}

function leadOf(file: string, recording: Recording, at: number): ChosenReference {
  const channel = recording.channels[at]!;
  const stream = { channel, blocks: () => recording.blocks([at]) };
  return { file, channel: channel.name, heart: { kind: "lead", stream } };
}

function ownLead({ file, recording }: OpenedSource): ChosenReference | null {
  const lead = firstLead(recording);
  return lead === null ? null : leadOf(file, recording, lead);
}

function firstLead({ channels }: Recording): number | null {
  const at = channels.findIndex((channel) => channel.kind === "ecg");
  return at < 0 ? null : at;
}

/** Annotations are complete only once the record was walked through. */
async function markedBeats(recording: Recording): Promise<Seconds[]> {
  for await (const _ of recording.blocks(recording.channels.length > 0 ? [0] : []));
  return recording.annotations.filter(({ kind }) => kind === "beat").map(({ time }) => time);
}

/** Where both files say when they began, they must agree; where one does not, the user's word stands. */
function mustStartTogether(file: string, { startedAt }: Recording, source: OpenedSource): void {
  const other = source.recording.startedAt;
  if (startedAt === null || other === null || startedAt === other) return;
  throw inputStop(
    plainText(
      `${file}: starts at ${startedAt}, ${source.file} at ${other}; a reference must share the clock`,
    ),
  );
}
