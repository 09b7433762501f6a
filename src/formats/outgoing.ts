/** What can be written: a recording in memory, and the files it becomes. Knows no format. */
import type { Annotation } from "../model/index.js";

export interface OutgoingChannel {
  /** In full: `IR left index finger`. Readers infer the kind from it. */
  readonly name: string;
  /** For formats with short labels: at most 16 characters of ASCII. */
  readonly label: string;
  /** UCUM, or `count` for converter steps. */
  readonly unit: string;
  /** Smallest difference that means something, in the unit, above 0: writers keep at least this where they can. */
  readonly step: number;
  /** One value a sample; all finite, all channels of one length. */
  readonly values: Float64Array;
}

export interface OutgoingRecording {
  /** File name without folder and ending. */
  readonly name: string;
  /** Samples per second, a whole number. */
  readonly rate: number;
  readonly channels: readonly OutgoingChannel[];
  readonly annotations: readonly Annotation[];
  /** Where the samples come from, one ASCII line. */
  readonly origin: string;
}

export interface OutgoingFile {
  readonly name: string;
  /** Pieces in order; not held all at once. */
  readonly pieces: Iterable<Uint8Array>;
}

/** A recording that this format cannot hold: the caller's mistake. */
export class WriteError extends Error {
  override readonly name = "WriteError";
  constructor(
    readonly code: "not-finite" | "uneven-lengths" | "bad-rate" | "uneven-end" | "bad-label",
    detail: string,
  ) {
    super(`${code}: ${detail}`);
  }
}

/** Samples in each channel. @throws {WriteError} `uneven-lengths`, `not-finite`, `bad-rate` */
export function checkedLength({ channels, rate }: OutgoingRecording): number {
  const length = channels[0]?.values.length ?? 0;
  if (!Number.isInteger(rate) || rate < 1)
    throw new WriteError("bad-rate", `${rate} samples/s is no whole number`);
  for (const { name, values } of channels) {
    if (values.length !== length)
      throw new WriteError("uneven-lengths", `${name} has ${values.length}, not ${length}`);
    if (!values.every(Number.isFinite)) throw new WriteError("not-finite", `${name} holds a missing value`);
  }
  return length;
}
