/** What comparing two sides gives: a verdict with its reasons, its numbers and its limits. */
import type { Estimate, Millis, Percent, PerMinute, Site } from "../model/index.js";
import type { Rule } from "../rules/index.js";

/**
 * - `absent`: a working probe on the suspect side, and no pulse wave where a reference beats
 * - `weaker`, `later`: the suspect side's wave is smaller or comes later than scatter explains
 * - `no-difference`: none found; always with what this cannot see
 * - `both-weak`: neither side can serve as the reference
 * - `cannot-tell`: the reasons say why, and the first one says what kind
 */
export const verdicts = ["absent", "weaker", "later", "no-difference", "both-weak", "cannot-tell"] as const;
export type Verdict = (typeof verdicts)[number];

export type Confidence = "high" | "moderate" | "low";

/** Stable codes; S5's four answers are `no-wave-working-probe`, `probe-off`, `too-much-movement` and the rest. */
export const comparisonReasonCodes = [
  "no-wave-working-probe",
  "no-wave-no-reference",
  "wave-may-hide",
  "hidden-size-unknown",
  "small-wave-found",
  "wave-found-size-unknown",
  "wave-uncertain",
  "wave-at-other-beat",
  "probe-off",
  "too-much-movement",
  "suspect-shaky",
  "wave-came-or-went",
  "sound-not-solid",
  "pump",
  "same-site",
  "same-beats",
  "other-place",
  "place-unknown",
  "other-colour",
  "ratio-below",
  "ratio-within",
  "ratio-doubtful",
  "ratio-above",
  "both-low",
  "amplitude-not-compared",
  "delay-beyond",
  "delay-within",
  "delay-doubtful",
  "delay-negative",
  "heights-differ",
  "shapes-disagree",
  "timing-not-compared",
  "rates-agree",
  "rates-differ",
  "beats-unmatched",
  "rate-unknown",
  "spo2-differs",
  "spo2-low",
  "disturbed",
] as const;
export type ComparisonReasonCode = (typeof comparisonReasonCodes)[number];

export interface ComparisonReason {
  readonly code: ComparisonReasonCode;
  /** A plain clause, no capital, no full stop. */
  readonly words: string;
  /** The number behind it, in `unit`; `null` where there is none. */
  readonly value: number | null;
  readonly unit: string;
  /** The row it was held against, with value, unit, source and support (S9); `null` where there is none. */
  readonly rule: Rule | null;
}

export interface Comparison {
  readonly verdict: Verdict;
  /** See `confidenceOf`; `low` for `cannot-tell`. */
  readonly confidence: Confidence;
  /** One sentence that answers; for `no-difference` with what it cannot see. */
  readonly sentence: string;
  /** As handed over; `null` if not stated (S4). */
  readonly sound: Site | null;
  readonly suspect: Site | null;
  /** Gravest first. */
  readonly reasons: readonly ComparisonReason[];
  /** Suspect over sound. Interval: scatter of the beats and of healthy fingers. `null` unless both solid with known gain (S2, S3). */
  readonly piRatio: Estimate | null;
  /** Suspect after sound, by the feet of the beats. `null` unless both solid, on one clock or each with an ECG, and at equal height. */
  readonly delay: Estimate<Millis> | null;
  /** The same by laying the two usual beats over each other. */
  readonly delayByShape: Millis | null;
  /** 0 for equal shapes to 1 for unrelated ones, 2 for opposite ones; `null` unless both solid. */
  readonly shapeDistance: number | null;
  /** Suspect minus sound; `null` unless both solid. */
  readonly rateDifference: PerMinute | null;
  /** Sound minus suspect; `null` unless both numbers may be believed. */
  readonly saturationDifference: Percent | null;
  /** Said beside every value (S6). */
  readonly marks: readonly string[];
  /** What would make the verdict wrong: declared, or not stated. */
  readonly couldBeWrong: readonly string[];
  /** Those of `couldBeWrong` that are known to be so. */
  readonly disturbedBy: readonly string[];
  /** The rest of `couldBeWrong`, which was not stated, in a word or two each. */
  readonly notStated: readonly string[];
  /** Never empty. */
  readonly cannotSee: readonly string[];
}
