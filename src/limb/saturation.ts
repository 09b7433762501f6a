/** The SpO2 some device shows beside the trace, and whether the trace lets it be believed (S2). */
import type { CaptureGrade, Percent, Seconds } from "../model/index.js";
import { holds, ruleOf } from "../rules/index.js";
import { median } from "./beat-median.js";

/** One number as the source gave it. */
export interface SaturationNumber {
  readonly time: Seconds;
  readonly value: Percent;
}

/**
 * - `held-over-dead-trace`: shown while the trace has no pulse wave or no working probe
 * - `capture-not-solid`: shown while pulses are not to be trusted
 * - `stale`: older than the standard lets pass without a mark
 */
export type SaturationFault = "held-over-dead-trace" | "capture-not-solid" | "stale";

export interface Saturation {
  /** Median of the numbers in the stretch, or the last one before it. */
  readonly value: Percent;
  /** Time of the newest number used. */
  readonly at: Seconds;
  /** Age of that number at the end of the stretch. */
  readonly age: Seconds;
  /** `null` when the number may be believed; otherwise it is shown struck through, with its age. */
  readonly fault: SaturationFault | null;
}

/** Numbers up to `to`, judged by the capture of the stretch `from` to `to`; `null` without any. */
export function judgeSaturation(
  numbers: readonly SaturationNumber[],
  from: Seconds,
  to: Seconds,
  capture: CaptureGrade,
): Saturation | null {
  const known = numbers.filter((number) => number.time <= to);
  const last = known.at(-1);
  if (last === undefined) return null;
  const inside = known.filter((number) => number.time >= from).map((number) => number.value);
  const value = (inside.length > 0 ? median(inside) : last.value) as Percent;
  const age = (to - last.time) as Seconds;
  let fault: SaturationFault | null = null;
  if (capture === "none" || capture === "off") fault = "held-over-dead-trace";
  else if (capture !== "solid") fault = "capture-not-solid";
  else if (inside.length === 0 || holds(ruleOf("spo2.age"), age)) fault = "stale";
  return { value, at: last.time, age, fault };
}
