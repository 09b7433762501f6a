/** Everything that may be measured between two sides, and why the rest may not (S2, S3). */
import { type Estimate, hasLevel, type Millis, type PerMinute } from "../model/index.js";
import { holds, ruleOf } from "../rules/index.js";
import type { ComparisonReason } from "./comparison.js";
import type { SideContext } from "./declared.js";
import { reason } from "./judgement.js";
import { type PiRatio, piRatio, sameColour } from "./pi-ratio.js";
import { sameHeight } from "./place.js";
import type { Reading } from "./reading.js";
import { delayByEcg, delayByFeet, delayByShape, delayByTraces, unmatchedShare } from "./side-timing.js";

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
  const { delay, byShape } = both && level ? delays(sound, suspect, context) : { delay: null, byShape: null };
  return {
    ratio,
    ratioMissing: ratio === null ? whyNoRatio(sound, suspect) : null,
    delay,
    delayMissing: delay === null ? whyNoDelay(level, context) : null,
    delayByShape: byShape,
    rateDifference:
      sound.pulseRate !== null && suspect.pulseRate !== null
        ? ((suspect.pulseRate.value - sound.pulseRate.value) as PerMinute)
        : null,
    unmatched: both && context.oneClock ? unmatchedShare(sound, suspect) : null,
  };
}

/**
 * On one clock the averaged beats give the delay, since they come close to the bound; where the feet do not
 * bear it out the shapes differ, and the feet give it.
 */
function delays(
  sound: Reading,
  suspect: Reading,
  { oneClock }: SideContext,
): { readonly delay: Estimate<Millis> | null; readonly byShape: Millis | null } {
  const byFoot = oneClock ? delayByFeet(sound, suspect) : delayByEcg(sound, suspect);
  if (byFoot === null) return { delay: null, byShape: null };
  const byTraces = oneClock ? delayByTraces(sound, suspect) : null;
  if (byTraces === null) return { delay: byFoot, byShape: delayByShape(byFoot.value, sound, suspect) };
  const apart = holds(ruleOf("delay.shapes-disagree"), Math.abs(byTraces.value - byFoot.value));
  return { delay: apart ? byFoot : byTraces, byShape: byTraces.value };
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
