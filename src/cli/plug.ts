/** The one place that ties the command line to the layers below. */
import { openRecording, type Recording } from "../formats/index.js";
import { type ChannelStream, listen } from "../limb/listen.js";
import type { Engine } from "./engine.js";
import { lengthOf } from "./open-source.js";
import { exitCodes, Stop } from "./stop.js";

function streamOf(recording: Recording, at: number): ChannelStream {
  return { channel: recording.channels[at]!, blocks: () => recording.blocks([at]) };
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
  async compare() {
    throw new Stop(exitCodes.fault, "comparing is not plugged in yet (src/cli/plug.ts)");
  },
};
