/** Which channel of a recording is meant. */
import type { Recording } from "../formats/recording.js";
import { type Channel, isPleth } from "../model/index.js";
import { plainText } from "./plain-text.js";
import { inputStop } from "./stop.js";

/** What a channel is, in the words of `--kind` and `--help`. */
export function kindName(channel: Channel): string {
  switch (channel.kind) {
    case "raw-light":
      return channel.colour ?? "raw light";
    case "display-pleth":
      return "display";
    default:
      return channel.kind;
  }
}

export function listed(channels: readonly Channel[]): string {
  return channels.map((channel) => `${plainText(channel.name)} (${kindName(channel)})`).join(", ");
}

/**
 * Position of the channel meant; without a name, the only pleth there is.
 *
 * @throws {Stop} bad input, with the channels there are, or when it is no pleth
 */
export function chooseChannel(recording: Recording, file: string, wanted: string | null): number {
  const { channels } = recording;
  if (wanted === null) return onlyPleth(channels, file);
  return mustBePleth(channels, channelNamed(recording, file, wanted), file);
}

/**
 * Position of the channel of this exact name, else the same without regard to case, else its number from 1.
 *
 * @throws {Stop} bad input, with the channels there are
 */
export function channelNamed({ channels }: Recording, file: string, wanted: string): number {
  const candidates = [
    (channel: Channel) => channel.name === wanted,
    (channel: Channel) => channel.name.toLowerCase() === wanted.trim().toLowerCase(),
    (_: Channel, i: number) => String(i + 1) === wanted,
  ];
  for (const fits of candidates) {
    const found = channels.flatMap((channel, i) => (fits(channel, i) ? [i] : []));
    if (found.length > 1) {
      throw inputStop(
        `${file}: ${found.length} channels are called "${wanted}"; use a number, e.g. #${found[0]! + 1}`,
      );
    }
    if (found[0] !== undefined) return found[0];
  }
  throw inputStop(`${file}: no channel "${wanted}"; it has ${listed(channels)}`);
}

function mustBePleth(channels: readonly Channel[], at: number, file: string): number {
  const channel = channels[at]!;
  if (isPleth(channel)) return at;
  const name = plainText(channel.name);
  throw inputStop(
    `${file}: channel ${name} is taken for ${kindName(channel)} (${plainText(channel.because)}); if it is a pleth, say --kind "${name}=display"`,
  );
}

function onlyPleth(channels: readonly Channel[], file: string): number {
  const pleths = channels.flatMap((channel, i) => (isPleth(channel) ? [i] : []));
  if (pleths.length === 1) return pleths[0]!;
  if (pleths.length === 0) {
    const name = channels[0] === undefined ? "CHANNEL" : plainText(channels[0].name);
    throw inputStop(
      `${file}: no pleth found; it has ${listed(channels)}. If one of them is, say e.g. --kind "${name}=display"`,
    );
  }
  const named = pleths.map((i) => channels[i]!);
  throw inputStop(
    `${file}: ${pleths.length} pleths, say which: ${listed(named)}, e.g. "${file}#${plainText(named[0]!.name)}"`,
  );
}
