/** The answer to "is there a wave at the heart's beat?", as statistics. */
import type { Percent, Seconds } from "./units.js";

/**
 * - `found`: p < 0.001 and delay and shape plausible
 * - `likely`: p < 0.01, or found with an implausible delay or shape
 * - `not-found`: a reference was there, the test had power, and nothing came; see `upperLimit`
 * - `cannot-tell`: without a reference a weak smooth wave cannot be excluded, or too little signal
 */
export type PresenceAnswer = "found" | "likely" | "not-found" | "cannot-tell";

export interface Presence {
  readonly answer: PresenceAnswer;
  /** Look-elsewhere paid; 0 to 1. */
  readonly p: number;
  /** Peak-to-peak size of the wave in the channel's units, with its 95 % interval; `null` if not found. */
  readonly amplitude: { readonly value: number; readonly low: number; readonly high: number } | null;
  /** Largest size that could have hidden, 95 %, channel units; `null` without a reference. */
  readonly upperLimit: number | null;
  /** The same as a perfusion index; `null` unless raw light (S3). */
  readonly upperLimitIndex: Percent | null;
  /** Reference beat to foot; `null` unless found with a reference. */
  readonly delay: Seconds | null;
  /** Whether a reference (ECG, other side, taps) was used. */
  readonly reference: boolean;
}
