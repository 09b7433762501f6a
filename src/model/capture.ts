/** Whether a stretch of pleth can be believed, and why not. */
import type { Percent, PerMinute, Seconds } from "./units.js";

/**
 * - `solid`: pulses found, regular in shape, agreeing with the reference if there is one
 * - `shaky`: pulses likely, not to be trusted
 * - `none`: working probe, no pulse wave
 * - `off`: no working probe
 * - `unreadable`: movement or noise hides whatever is there
 */
export const captureGrades = ["solid", "shaky", "none", "off", "unreadable"] as const;
export type CaptureGrade = (typeof captureGrades)[number];

/** A reason in the tool's own short code; the words for it are the surface's business. */
export type ReasonCode =
  | "missing-samples"
  | "flat-line"
  | "at-rail"
  | "level-step"
  | "too-few-beats"
  | "beats-differ"
  | "beat-missing"
  | "intervals-uneven"
  | "busy-between-beats"
  | "weak-smooth-wave"
  | "no-wave-at-heart-beat"
  | "reference-disagrees"
  | "too-short"
  | "pulse-lost"
  | "rate-out-of-range";

export interface Reason {
  readonly code: ReasonCode;
  /** The measured value behind it, in `unit`; `null` where there is none. */
  readonly value: number | null;
  readonly unit: string;
  /** The limit it was held against; `null` where there is none. */
  readonly limit: number | null;
}

/** The grade of one stretch of one channel. Windows of a channel join without holes. */
export interface Window {
  readonly from: Seconds;
  readonly to: Seconds;
  readonly capture: CaptureGrade;
  /** Empty when solid; otherwise what speaks against it, gravest first. */
  readonly reasons: readonly Reason[];
  /** From the beats in the window; `null` unless `solid` or `shaky`. */
  readonly pulseRate: PerMinute | null;
  /** Median over the beats; `null` unless raw light and `solid` or `shaky` (S2, S3). */
  readonly perfusionIndex: Percent | null;
}

/**
 * A wave that went away, and when it came back. Read it with the grade of the windows it touches: movement, an
 * artefact or a slipped probe hides a wave as well as a stopped artery does, and such windows are `unreadable` or
 * `off` (S5). Only beside a window that is `none` does it speak of a pulse that went away under a working probe.
 */
export interface Loss {
  /** Last beat before the loss. */
  readonly from: Seconds;
  /** When the loss was known, in the time of the signal. */
  readonly seen: Seconds;
  /** First beat of the return; `null` if it has not come back. */
  readonly back: Seconds | null;
  /** When the return was known. */
  readonly backSeen: Seconds | null;
}
