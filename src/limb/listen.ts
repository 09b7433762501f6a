/** A channel's samples through the pulse engine: beats, graded windows and losses on the clock of the record. */
import { type Beat, type Block, type Channel, hasLevel, type Loss, type Window } from "../model/index.js";
import type { Seconds } from "../model/units.js";
import { createPulseListener } from "../pulse/listener.js";

/** Part of a record, seconds on its clock; `null` is its start or its end. */
export interface Span {
  readonly from: number | null;
  readonly to: number | null;
}

/** Samples per second the pulse engine takes. */
export const readableRates = { from: 20, to: 5000 } as const;

/** One channel that can be walked through more than once. */
export interface ChannelStream {
  readonly channel: Channel;
  /** Blocks of this channel only, in order, without holes. */
  blocks(): AsyncIterable<Block>;
}

export interface Heard {
  readonly beats: readonly Beat[];
  /** Join without holes and cover the samples of the span; the first starts with the span. */
  readonly windows: readonly Window[];
  readonly losses: readonly Loss[];
}

/**
 * The samples of a span in order, cut into pieces as they come, and the time of the first of them.
 * The view handed over is only good until the next piece.
 */
export async function* spanPieces(
  { channel, blocks }: ChannelStream,
  { from, to }: Span,
): AsyncGenerator<{ readonly time: number; readonly values: Float64Array }> {
  const { rate, start } = channel;
  // A sample belongs to the span that holds its time; the slack takes rounding of `from` and `to`.
  const numberAt = (time: number) => Math.max(0, Math.ceil((time - start) * rate - 1e-6));
  const first = from === null ? 0 : numberAt(from);
  const end = to === null ? Number.POSITIVE_INFINITY : numberAt(to);
  for await (const block of blocks()) {
    if (block.first >= end) return;
    const a = Math.max(0, first - block.first);
    const b = Math.min(block.values.length, end - block.first);
    if (b > a) yield { time: start + (block.first + a) / rate, values: block.values.subarray(a, b) };
  }
}

const later = <Time extends Seconds | null>(time: Time, by: number): Time =>
  (time === null ? null : time + by) as Time;

/** What the pulse engine tells, moved by a time: it counts from the first sample it was given. */
export const moved = {
  beat: (beat: Beat, by: number): Beat => ({
    ...beat,
    foot: later(beat.foot, by),
    peak: later(beat.peak, by),
    notch: later(beat.notch, by),
  }),
  window: (window: Window, by: number): Window => ({
    ...window,
    from: later(window.from, by),
    to: later(window.to, by),
  }),
  loss: ({ from, seen, back, backSeen }: Loss, by: number): Loss => ({
    from: later(from, by),
    seen: later(seen, by),
    back: later(back, by),
    backSeen: later(backSeen, by),
  }),
};

/** @param onTime called after each piece with the time reached, for progress */
export async function listen(
  stream: ChannelStream,
  span: Span,
  onTime?: (time: number) => void,
): Promise<Heard> {
  const { channel } = stream;
  const beats: Beat[] = [];
  const windows: Window[] = [];
  const losses: Loss[] = [];
  let begin = 0;
  const listener = createPulseListener(
    { rate: channel.rate, polarity: channel.polarity, level: hasLevel(channel) },
    {
      beat: (beat) => beats.push(moved.beat(beat, begin)),
      window: (window) => windows.push(moved.window(window, begin)),
      loss(loss) {
        const shifted = moved.loss(loss, begin);
        // The return of a loss replaces the loss that was told when it was seen.
        if (losses.at(-1)?.from === shifted.from) losses[losses.length - 1] = shifted;
        else losses.push(shifted);
      },
    },
  );
  let started = false;
  for await (const { time, values } of spanPieces(stream, span)) {
    if (!started) begin = time;
    started = true;
    listener.push(values);
    onTime?.(time + values.length / channel.rate);
  }
  listener.end();
  return { beats, windows, losses };
}
