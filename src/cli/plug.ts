/** The one place that ties the command line to the layers below. */
import { openRecording, type Recording } from "../formats/index.js";
import { compareChannels, type Side } from "../limb/compare-channels.js";
import { heartBeats, holdToHeart } from "../limb/index.js";
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

/** @param ownNumbers whether the SpO2 of the record can only be this side's */
function sideOf({ recording, channel, span, site, declared, heart }: SideSource, ownNumbers: boolean): Side {
  return {
    pleth: streamOf(recording, channel),
    span,
    site,
    declared,
    heart,
    saturation: ownNumbers ? onlyOne(recording, "spo2") : null,
  };
}

/** Two channels of one file tell the same faults twice. */
function distinct(problems: readonly Problem[]): Problem[] {
  return [...new Map(problems.map((problem) => [JSON.stringify(problem), problem])).values()];
}

export const engine: Engine = {
  open: openRecording,
  async read(recording, at, span, progress, heart) {
    const end = span.to ?? lengthOf(recording.channels[at]!);
    const begin = span.from ?? 0;
    const stream = streamOf(recording, at);
    const heard = await listen(stream, span, (time) => {
      if (end !== null) progress(((heart === null ? 1 : 0.5) * (time - begin)) / (end - begin));
    });
    const { problems } = recording;
    if (heart === null) return { ...heard, heart: null, problems };
    const { windows, ...held } = await holdToHeart(stream, span, heard, await heartBeats(heart, span));
    progress(1);
    return { ...heard, windows, heart: held, problems };
  },
  async compare(sound, suspect, context, progress) {
    // With two probes in one record nobody says whose number it shows (S4).
    const ownNumbers = !context.oneClock || sound.channel === suspect.channel;
    const sides = [sideOf(sound, ownNumbers), sideOf(suspect, ownNumbers)] as const;
    const compared = await compareChannels(...sides, context, progress);
    return { ...compared, problems: distinct([...sound.recording.problems, ...suspect.recording.problems]) };
  },
};
