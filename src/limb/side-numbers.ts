/** Everything that may be measured between two sides, and why the rest may not (S2, S3). */
import { type Estimate, hasLevel, type Millis, type PerMinute } from "../model/index.js";
import type { ComparisonReason } from "./comparison.js";
import type { SideContext } from "./declared.js";
import { reason } from "./judgement.js";
import { type PiRatio, piRatio, sameColour } from "./pi-ratio.js";
import { sameHeight } from "./place.js";
import type { Reading } from "./reading.js";
import { delayByEcg, delayByShape, delayOnOneClock, unmatchedShare } from "./side-timing.js";

export interface SideNumbers {
  readonly ratio: PiRatio | null;
  /** Why there is no ratio, when there is none. */
  readonly ratioMissing: ComparisonReason | null;
  readonly delay: Estimate<Millis> | null;
  /** Why there is no delay, when there is none. */
  readonly delayMissing: ComparisonReason | null;
  readonly delayByShape: Millis | null;
  readonly rateDifference: PerMinute | null;
  /** Percent; `null` unless on one clock. */
  readonly unmatched: number | null;
}

export function measureSides(sound: Reading, suspect: Reading, context: SideContext): SideNumbers {
  const both = sound.capture === "solid" && suspect.capture === "solid";
  const ratio = piRatio(sound, suspect);
  const level = sameHeight(sound, suspect, context) !== false;
  const delay =
    both && level ? (context.oneClock ? delayOnOneClock(sound, suspect) : delayByEcg(sound, suspect)) : null;
  return {
    ratio,
    ratioMissing: ratio === null ? whyNoRatio(sound, suspect) : null,
    delay,
    delayMissing: delay === null ? whyNoDelay(level, context) : null,
    delayByShape: delay === null ? null : delayByShape(delay.value, sound, suspect),
    rateDifference:
      sound.pulseRate !== null && suspect.pulseRate !== null
        ? ((suspect.pulseRate.value - sound.pulseRate.value) as PerMinute)
        : null,
    unmatched: both && context.oneClock ? unmatchedShare(sound, suspect) : null,
  };
}

function whyNoRatio(sound: Reading, suspect: Reading): ComparisonReason {
  if (hasLevel(sound.channel) && hasLevel(suspect.channel) && !sameColour(sound, suspect)) {
    return reason("other-colour", "size not compared: the two sides were lit with different colours");
  }
  return reason("amplitude-not-compared", "size not compared: the gain of a trace is not known");
}

function whyNoDelay(level: boolean, context: SideContext): ComparisonReason {
  if (!level)
    return reason(
      "heights-differ",
      "timing not compared: raising one limb alone shifts it by more than a narrowing does",
    );
  return context.oneClock
    ? reason("timing-not-compared", "timing not compared: too few beats in common")
    : reason("timing-not-compared", "timing not compared: the two sides were not recorded together");
}
