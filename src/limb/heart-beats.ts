/** When the heart beat, by something recorded beside the pleth: an ECG lead, or marks of beats. */
import type { Seconds } from "../model/index.js";
import { createEcgBeatFinder } from "../pulse/ecg-beats.js";
import { type ChannelStream, type Span, spanPieces } from "./listen.js";

/** On the clock of the pleth. Marks are times of R waves, in order. */
export type HeartSource =
  | { readonly kind: "lead"; readonly stream: ChannelStream }
  | { readonly kind: "marks"; readonly beats: readonly Seconds[] };

/** Seconds of ECG before and after a stretch: learning time, and marks that help at its ends. */
const margin = 5;

/** R waves of a stretch and up to 5 s around it, in order, seconds on the clock of the pleth. */
export async function heartBeats(heart: HeartSource, { from, to }: Span): Promise<Seconds[]> {
  const begin = (from ?? Number.NEGATIVE_INFINITY) - margin;
  const end = (to ?? Number.POSITIVE_INFINITY) + margin;
  if (heart.kind === "marks") return heart.beats.filter((time) => time >= begin && time <= end);
  const { stream } = heart;
  const found: number[] = [];
  const finder = createEcgBeatFinder(stream.channel.rate, (time) => found.push(time));
  let first: number | null = null;
  const around = { from: from === null ? null : begin, to: to === null ? null : end };
  for await (const { time, values } of spanPieces(stream, around)) {
    first ??= time;
    finder.push(values);
  }
  finder.end();
  return found.map((time) => (time + (first ?? 0)) as Seconds);
}
