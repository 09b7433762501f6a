/** One pulse as found in a pleth. */
import type { Percent, Seconds } from "./units.js";

export interface Beat {
  /** Where the rise starts: tangent of steepest rise cut with the level of the minimum before. */
  readonly foot: Seconds | null;
  /** Top of the systolic wave, to a fraction of a sample. */
  readonly peak: Seconds;
  /** Dicrotic notch, where there is one. */
  readonly notch: Seconds | null;
  /** Peak above foot, in the channel's own units, always positive. */
  readonly amplitude: number;
  /** 100 × AC/DC; `null` unless the channel is raw light (S3). */
  readonly perfusionIndex: Percent | null;
}
