/** SpO2 of the two sides: never makes a verdict; a low suspect side beside a good one forbids the mild one. */
import type { Percent } from "../model/index.js";
import { holds, ruleOf } from "../rules/index.js";
import type { ComparisonReason } from "./comparison.js";
import { reason } from "./judgement.js";
import type { Reading } from "./reading.js";

export interface SaturationDifference {
  /** Sound minus suspect. */
  readonly value: Percent | null;
  readonly reasons: readonly ComparisonReason[];
  readonly forbids: boolean;
}

/** `null` value unless both numbers may be believed (S2). */
export function saturationDifference(sound: Reading, suspect: Reading): SaturationDifference {
  const one = sound.saturation;
  const other = suspect.saturation;
  if (one === null || other === null || one.fault !== null || other.fault !== null) {
    return { value: null, reasons: [], forbids: false };
  }
  const value = (one.value - other.value) as Percent;
  const reasons: ComparisonReason[] = [];
  const low = ruleOf("spo2.injured-limb");
  const forbids = holds(low, other.value) && !holds(low, one.value);
  if (forbids) {
    reasons.push(
      reason(
        "spo2-low",
        `SpO2 is ${figureOf(other.value)} % on the suspect side and ${figureOf(one.value)} % on the sound side`,
        { value: other.value, unit: "%", rule: low },
      ),
    );
  }
  const side = ruleOf("spo2.side");
  if (holds(side, Math.abs(value))) {
    reasons.push(
      reason(
        "spo2-differs",
        `SpO2 differs by ${figureOf(Math.abs(value))} %, a weak sign: sound sides differ by 2 % too`,
        { value, unit: "%", rule: side },
      ),
    );
  }
  return { value, reasons, forbids };
}

/** SpO2 is shown to a tenth at most. */
const figureOf = (value: number) => String(Math.round(10 * value) / 10);
