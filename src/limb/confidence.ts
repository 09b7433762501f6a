/** How much a verdict may be leaned on. */
import type { Confidence, Verdict } from "./comparison.js";
import { type Doubt, doubtsAbout } from "./doubts.js";

/**
 * - `low`: a known disturbance bears on the verdict, or the finding itself is `thin` (size not
 *   known, timing or size not compared, shapes that disagree); always for `cannot-tell` and `both-weak`
 * - `moderate`: otherwise, if something that bears on it was not stated, or if the verdict leans on
 *   a working default: there is no published limit for `weaker`, and so none for `no-difference`
 * - `high`: otherwise
 */
export function confidenceOf(verdict: Verdict, doubts: readonly Doubt[], thin: boolean): Confidence {
  if (verdict === "cannot-tell" || verdict === "both-weak") return "low";
  const about = doubtsAbout(verdict, doubts);
  if (thin || about.some((doubt) => doubt.known)) return "low";
  // A mild verdict with open questions is worth less than a grave one.
  if (verdict === "no-difference" && about.length > 0) return "low";
  if (about.length > 0 || verdict === "weaker" || verdict === "no-difference") return "moderate";
  return "high";
}
