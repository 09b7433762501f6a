/** Thinned traces of stretches of one channel, for pictures. Systole is turned upward. */
import type { Recording } from "../formats/recording.js";
import { createThinner, type Trace } from "../handover/index.js";

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface StretchTrace {
  readonly trace: Trace;
  /** Mean of the samples in the channel's own units; `null` without any. */
  readonly mean: number | null;
}

/** @param stretches seconds on the record's clock, rising, not overlapping */
export async function collectTraces(
  recording: Recording,
  at: number,
  stretches: readonly Stretch[],
  bins: number,
): Promise<StretchTrace[]> {
  const channel = recording.channels[at]!;
  const sign = channel.polarity === "systole-down" ? -1 : 1;
  const parts = stretches.map(({ from, to }) => ({
    thinner: createThinner(from, to, bins),
    sum: 0,
    count: 0,
  }));
  const end = stretches.at(-1)?.to ?? 0;
  let current = 0;
  walk: for await (const block of recording.blocks([at])) {
    for (let i = 0; i < block.values.length; i++) {
      const time = channel.start + (block.first + i) / channel.rate;
      if (time >= end) break walk;
      while (current < stretches.length && time >= stretches[current]!.to) current++;
      if (time < stretches[current]!.from) continue;
      const part = parts[current]!;
      const value = block.values[i] as number;
      part.thinner.next(time, sign * value);
      if (Number.isNaN(value)) continue;
      part.sum += value;
      part.count += 1;
    }
  }
  return parts.map(({ thinner, sum, count }) => ({
    trace: thinner.trace(),
    mean: count === 0 ? null : sum / count,
  }));
}
