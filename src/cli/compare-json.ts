/** `compare --json`, described in docs/json.md. */
import type { ComparisonReason, Reading } from "../limb/index.js";
import type { Estimate } from "../model/index.js";
import type { ChosenReference } from "./choose-reference.js";
import type { SideComparison } from "./engine.js";
import {
  presenceJson,
  problemJson,
  reasonJson,
  referenceJson,
  rounded,
  seconds,
  siteJson,
  sourceJson,
} from "./json-values.js";
import type { OpenedSource } from "./open-source.js";

function estimateJson(estimate: Estimate | null, digits: number): Record<string, unknown> | null {
  if (estimate === null) return null;
  return {
    value: rounded(estimate.value, digits),
    low: rounded(estimate.low, digits),
    high: rounded(estimate.high, digits),
    count: estimate.count,
  };
}

function ruleJson({ rule }: ComparisonReason): Record<string, unknown> | null {
  if (rule === null) return null;
  const { id, text, comparator, value, unit, source, support } = rule;
  return { id, text, comparator, value, unit, source, support };
}

function sideJson(
  source: OpenedSource,
  reading: Reading,
  reference: ChosenReference | null,
): Record<string, unknown> {
  const { saturation, presence } = reading;
  return {
    ...sourceJson(source),
    site: siteJson(reading.site),
    start_s: seconds(reading.from),
    end_s: seconds(reading.to),
    capture: reading.capture,
    reasons: reading.reasons.map((reason) => reason.code),
    reason_values: reading.reasons.map(reasonJson),
    pulse_rate_per_min: rounded(reading.pulseRate?.value ?? null, 1),
    pulse_rate: estimateJson(reading.pulseRate, 2),
    perfusion_index_pct: rounded(reading.perfusionIndex?.value ?? null, 4),
    perfusion_index: estimateJson(reading.perfusionIndex, 4),
    heart_reference: referenceJson(reference),
    presence: presenceJson(presence),
    spo2:
      saturation === null
        ? null
        : {
            value_pct: rounded(saturation.value, 1),
            age_s: seconds(saturation.age),
            believable: saturation.fault === null,
            fault: saturation.fault,
          },
    beats_s: reading.beats.map((beat) => seconds(beat.peak)),
    declared: reading.declared,
  };
}

export function compareJson(
  sound: OpenedSource,
  suspect: OpenedSource,
  result: SideComparison,
  references: { readonly sound: ChosenReference | null; readonly suspect: ChosenReference | null },
): Record<string, unknown> {
  const { comparison } = result;
  return {
    schema: "limbtide.compare/1",
    verdict: comparison.verdict,
    confidence: comparison.confidence,
    sentence: comparison.sentence,
    reasons: comparison.reasons.map((reason) => reason.words),
    reason_values: comparison.reasons.map((reason) => ({
      code: reason.code,
      value: rounded(reason.value, 6),
      unit: reason.unit,
      rule: ruleJson(reason),
    })),
    could_be_wrong: comparison.couldBeWrong,
    cannot_see: comparison.cannotSee,
    marks: comparison.marks,
    sound: sideJson(sound, result.sound, references.sound),
    suspect: sideJson(suspect, result.suspect, references.suspect),
    pi_ratio: estimateJson(comparison.piRatio, 4),
    delay_ms: estimateJson(comparison.delay, 2),
    delay_by_shape_ms: rounded(comparison.delayByShape, 2),
    shape_distance: rounded(comparison.shapeDistance, 4),
    rate_difference_per_min: rounded(comparison.rateDifference, 2),
    spo2_difference_pct: rounded(comparison.saturationDifference, 2),
    problems: result.problems.map(problemJson),
  };
}
