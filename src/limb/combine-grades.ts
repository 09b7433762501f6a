/** From the grades of windows to the grade of a reading. */
import type { CaptureGrade, Reason, Seconds, Window } from "../model/index.js";
import { ruleOf } from "../rules/index.js";

export interface CombinedGrade {
  readonly capture: CaptureGrade;
  readonly reasons: readonly Reason[];
}

const shortest = ruleOf("reading.length").value;
/** Windows that join to within this count as joined, seconds. */
const seam = 0.05;

/**
 * - `solid`: every window solid, no hole between them, at least 5 s
 * - `shaky`: some solid or shaky window, but not all solid (a pulse lost on the way is among these)
 * - `none`: every window none: a working probe throughout, and never a pulse wave
 * - `off`: otherwise, if the probe was off anywhere, since nothing then speaks for a working probe
 * - `unreadable`: otherwise, and when there is no window at all
 *
 * So no window can be argued away: solid and none both need the whole stretch.
 * Reasons are those of the windows, each code once with its gravest window's value, in order of appearance.
 */
export function combineGrades(windows: readonly Window[]): CombinedGrade {
  const reasons = new Map<string, Reason>();
  for (const window of windows)
    for (const reason of window.reasons) if (!reasons.has(reason.code)) reasons.set(reason.code, reason);
  const add = (reason: Reason) => {
    if (!reasons.has(reason.code)) reasons.set(reason.code, reason);
  };

  const any = (...grades: CaptureGrade[]) => windows.some((window) => grades.includes(window.capture));
  const all = (grade: CaptureGrade) =>
    windows.length > 0 && windows.every((window) => window.capture === grade);
  let capture: CaptureGrade;
  if (all("solid")) capture = "solid";
  else if (any("solid", "shaky")) capture = "shaky";
  else if (all("none")) capture = "none";
  else capture = any("off") ? "off" : "unreadable";

  if (any("solid") && any("none")) add({ code: "pulse-lost", value: null, unit: "", limit: null });
  const hole = largestHole(windows);
  if (hole > seam) {
    add({ code: "missing-samples", value: hole, unit: "s", limit: null });
    // Across a hole neither a pulse nor its absence was watched throughout.
    if (capture === "solid") capture = "shaky";
    if (capture === "none") capture = "unreadable";
  }
  const length = span(windows);
  if (length < shortest - seam) {
    add({ code: "too-short", value: length, unit: "s", limit: shortest });
    if (capture === "solid") capture = "shaky";
    if (capture === "none") capture = "unreadable";
  }
  return { capture, reasons: [...reasons.values()] };
}

/**
 * What a reading's beats and its reference make of the grade.
 *
 * - solid becomes shaky with too few beats, or when the reference finds no wave at its beat
 * - shaky becomes none when the reference finds no wave, every window is none or shaky, and at least one
 *   is none: the probe works, nothing moved, and what looked like pulses does not follow the heart
 */
export function reviseGrade(
  grade: CombinedGrade,
  windows: readonly Window[],
  beats: number,
  referenceDenies: boolean,
): CombinedGrade {
  const denied: Reason = { code: "reference-disagrees", value: null, unit: "", limit: null };
  if (grade.capture === "shaky" && referenceDenies) {
    const still = windows.every((window) => window.capture === "none" || window.capture === "shaky");
    const whole = !grade.reasons.some((one) => one.code === "missing-samples" || one.code === "too-short");
    if (still && whole && windows.some((window) => window.capture === "none")) {
      return { capture: "none", reasons: [denied, ...grade.reasons] };
    }
  }
  if (grade.capture !== "solid") return grade;
  const reasons: Reason[] = [];
  const { value, unit } = ruleOf("reading.beats");
  if (beats < value) reasons.push({ code: "too-few-beats", value: beats, unit, limit: value });
  if (referenceDenies) reasons.push(denied);
  return reasons.length === 0 ? grade : { capture: "shaky", reasons: [...reasons, ...grade.reasons] };
}

function span(windows: readonly Window[]): Seconds | 0 {
  const first = windows[0];
  const last = windows.at(-1);
  return first === undefined || last === undefined ? 0 : ((last.to - first.from) as Seconds);
}

function largestHole(windows: readonly Window[]): number {
  let hole = 0;
  for (let i = 1; i < windows.length; i++) hole = Math.max(hole, windows[i]!.from - windows[i - 1]!.to);
  return hole;
}
