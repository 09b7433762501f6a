/** Reasons against a capture, in words. */
import type { Reason, ReasonCode } from "../model/index.js";

const words: Readonly<Record<ReasonCode, string>> = {
  "missing-samples": "samples missing",
  "flat-line": "flat line",
  "at-rail": "stuck at the end of its range",
  "level-step": "the level jumps",
  "too-few-beats": "too few beats",
  "beats-differ": "beats unlike each other",
  "beat-missing": "a beat missing",
  "intervals-uneven": "uneven intervals",
  "busy-between-beats": "busy between beats",
  "weak-smooth-wave": "a weak smooth wave that may be no pulse",
  "no-wave-at-heart-beat": "no wave at the heart's beat",
  "reference-disagrees": "disagrees with the reference",
  "too-short": "too short to judge",
  "pulse-lost": "wave lost from sight",
  "rate-out-of-range": "rate out of range",
};

export function reasonWords(reason: Reason): string {
  return words[reason.code];
}
