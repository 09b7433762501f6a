/** The pulse wave: beats, amplitude, quality, presence, losses. Everything the other layers may use of it. */
export { type Agreement, agreeWithHeart, type Pairing, pairBeats } from "./agreement.js";
export {
  type AverageBeat,
  averageBeat,
  type BeatFrame,
  type PulseTrace,
  shapeDifference,
  traceAt,
} from "./average-beat.js";
export { type BeatFinderOptions, createBeatFinder } from "./beat-finder.js";
export { type CaptureContext, captureLimits, gradeCapture } from "./capture-grade.js";
export type { CaptureJudgement } from "./capture-judgement.js";
export { type Conditioner, type ConditionerOptions, createConditioner } from "./conditioner.js";
export { createEcgBeatFinder, type EcgBeatFinder } from "./ecg-beats.js";
export { type InnerBlock, type InnerClock, type InnerSink, tee } from "./inner-stream.js";
export {
  createPulseListener,
  type PulseListener,
  type PulseListenerOptions,
  type PulseSink,
} from "./listener.js";
export { createLossWatch, type LossWatch } from "./loss-watch.js";
export { perfusionIndex } from "./perfusion-index.js";
export { type AlonePresence, longestAlone, shortestAlone, testAlone } from "./presence-alone.js";
export {
  type DelayPrior,
  ecgDelay,
  otherSideDelay,
  type ReferenceTest,
  testWithReference,
} from "./presence-reference.js";
export { createTemplate, genericTemplate, type Template } from "./presence-template.js";
export {
  correlation,
  type IntervalRules,
  intervalRules,
  longestEqualRun,
  publishedQuality,
  type QualityLimit,
  skewness,
  successiveCorrelation,
  templateCorrelation,
} from "./quality-published.js";
export type { RawFault, RawFaultKind } from "./raw-fault.js";
export { createRawFaults, type RawFaultSettings, type RawFaultWatch } from "./raw-faults.js";
export { type DelayedSide, type SideDelay, sideDelay } from "./side-delay.js";
