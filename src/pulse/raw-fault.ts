/** What can be wrong with untouched samples. */
import type { Seconds } from "../model/units.js";

/**
 * - `missing`: no samples (NaN)
 * - `flat`: the very same value for 0.3 s or longer: the quantiser stands still, which no living trace does
 * - `rail`: a flat top or bottom entered abruptly, at a level met before: clipping
 * - `wrap-around`: a jump of nearly the full range after which the signal goes on as before: overflow of a converter
 * - `level-step`: the trace leaves its range within 0.1 s and stays away for 0.75 s: gain, range or probe moved
 */
export type RawFaultKind = "missing" | "flat" | "rail" | "wrap-around" | "level-step";

export interface RawFault {
  readonly kind: RawFaultKind;
  readonly from: Seconds;
  readonly to: Seconds;
}
