/** Readings, and the comparison of two sides. */
export { cannotSee, compartmentWarning } from "./cannot-see.js";
export { combineGrades } from "./combine-grades.js";
export { compareSides } from "./compare.js";
export {
  type Comparison,
  type ComparisonReason,
  type ComparisonReasonCode,
  type Confidence,
  comparisonReasonCodes,
  type Verdict,
  verdicts,
} from "./comparison.js";
export { type Declared, nothingDeclared, nothingKnown, type SideContext } from "./declared.js";
export { type HeartSource, heartBeats } from "./heart-beats.js";
export { type BeatCounts, type HeldToHeart, type HeldWindow, holdToHeart } from "./hold-to-heart.js";
export type { Reference } from "./read-stretch.js";
export { type BeatShape, type Reading, type ReadingInput, takeReading } from "./reading.js";
export type { Saturation, SaturationFault, SaturationNumber } from "./saturation.js";
export {
  createSiteListener,
  type SiteListener,
  type SiteListenerOptions,
  type SiteSink,
  type StretchOptions,
} from "./site-listener.js";
export { figure, latenessWords, namesOf, rolesOf } from "./words.js";
