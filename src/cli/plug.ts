/** The one place that ties the command line to the layers below. */
import { openRecording, type Recording } from "../formats/index.js";
import { compareChannels, type Side } from "../limb/compare-channels.js";
import { type ChannelStream, listen } from "../limb/listen.js";
import type { Problem } from "../model/index.js";
import type { Engine, SideSource } from "./engine.js";
import { lengthOf } from "./open-source.js";

function streamOf(recording: Recording, at: number): ChannelStream {
  return { channel: recording.channels[at]!, blocks: () => recording.blocks([at]) };
}

/** The only channel of a kind; with several it is not known which belongs to this side. */
function onlyOne(recording: Recording, kind: "spo2"): ChannelStream | null {
  const found = recording.channels.flatMap((channel, at) => (channel.kind === kind ? [at] : []));
  return found.length === 1 ? streamOf(recording, found[0]!) : null;
}

/** Any lead serves as reference; the first is taken. */
function firstEcg(recording: Recording): ChannelStream | null {
  const at = recording.channels.findIndex((channel) => channel.kind === "ecg");
  return at < 0 ? null : streamOf(recording, at);
}

/** @param ownNumbers whether the SpO2 of the record can only be this side's */
function sideOf({ recording, channel, span, site, declared }: SideSource, ownNumbers: boolean): Side {
  return {
    pleth: streamOf(recording, channel),
    span,
    site,
    declared,
    ecg: firstEcg(recording),
    saturation: ownNumbers ? onlyOne(recording, "spo2") : null,
  };
}

/** Two channels of one file tell the same faults twice. */
function distinct(problems: readonly Problem[]): Problem[] {
  return [...new Map(problems.map((problem) => [JSON.stringify(problem), problem])).values()];
}

export const engine: Engine = {
  open: openRecording,
  async read(recording, at, span, progress) {
    const end = span.to ?? lengthOf(recording.channels[at]!);
    const begin = span.from ?? 0;
    const heard = await listen(streamOf(recording, at), span, (time) => {
      if (end !== null) progress((time - begin) / (end - begin));
    });
    return { ...heard, problems: recording.problems };
  },
  async compare(sound, suspect, context, progress) {
    // With two probes in one record nobody says whose number it shows (S4).
    const ownNumbers = !context.oneClock || sound.channel === suspect.channel;
    const sides = [sideOf(sound, ownNumbers), sideOf(suspect, ownNumbers)] as const;
    const compared = await compareChannels(...sides, context, progress);
    return { ...compared, problems: distinct([...sound.recording.problems, ...suspect.recording.problems]) };
  },
};
