/** What a channel is and what may be asked of it. Knows nothing of files. */
import type { Hertz, Seconds } from "./units.js";

/**
 * - `raw-light`: light intensity with its true level; a perfusion index exists
 * - `display-pleth`: a trace drawn for a screen, automatic gain, no level; rhythm, timing and presence only (S3)
 * - `spo2`, `pulse-rate`, `perfusion-index`: numbers computed by some device
 * - `clock`, `other`: kept out of the analysis
 */
export type ChannelKind =
  | "raw-light"
  | "display-pleth"
  | "ecg"
  | "pressure"
  | "spo2"
  | "pulse-rate"
  | "perfusion-index"
  | "other";

export type LightColour = "infrared" | "red" | "green";

/** Which way the trace goes in systole. Raw light falls: more blood lets less light through. */
export type Polarity = "systole-up" | "systole-down";

export interface Channel {
  /** As written in the source, trimmed. */
  readonly name: string;
  readonly kind: ChannelKind;
  /** For raw light only. */
  readonly colour: LightColour | null;
  readonly polarity: Polarity;
  /** UCUM where known, else as written; `""` when the source says nothing. */
  readonly unit: string;
  readonly rate: Hertz;
  /** Time of the first sample after the start of the record (skew). */
  readonly start: Seconds;
  /** Samples in the channel; `null` while unknown. */
  readonly samples: number | null;
  /** Why `kind` was chosen, for the user: `column name "IR_ADC"`, `stated by the user`. */
  readonly because: string;
}

/** Whether pulses of this channel can carry a perfusion index (S3). */
export function hasLevel(channel: Channel): boolean {
  return channel.kind === "raw-light";
}

export function isPleth(channel: Channel): boolean {
  return channel.kind === "raw-light" || channel.kind === "display-pleth";
}
