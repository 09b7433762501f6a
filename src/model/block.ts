/** Samples on their way through the pipeline. */
import type { SampleIndex, Seconds } from "./units.js";

/**
 * A run of samples of one channel. Blocks of a channel come in order and join without
 * holes; a missing sample is NaN, the packed form of `null`. Their size carries no meaning:
 * any cut of the same samples gives the same results.
 */
export interface Block {
  /** Position of the channel in the recording's list. */
  readonly channel: number;
  readonly first: SampleIndex;
  readonly values: Float64Array;
}

/** A stretch that holds no usable samples, and why. */
export interface Gap {
  readonly channel: number;
  readonly from: Seconds;
  readonly to: Seconds;
  readonly reason: string;
}

/** A remark the source itself carries: an event, a beat mark, a comment. */
export interface Annotation {
  readonly time: Seconds;
  readonly duration: Seconds | null;
  /** `beat` for marks of heart beats, `note` for text. */
  readonly kind: "beat" | "note" | "other";
  readonly text: string;
}
