/** The case record: what was told, in order, never changed; and what is known from it now. */
export { latestFindings, openPairs, readingsAt } from "./asking-view.js";
export { caseName } from "./case-name.js";
export type { CaseEvent, EventOf, KnownEvent } from "./event.js";
export { type BodyOf, type EventKind, eventKinds } from "./event-kinds.js";
export { CaseError, createEventMaker, type EventMakerInput, nextSeq } from "./event-maker.js";
export { type CaseFold, createCaseFold, fold } from "./fold.js";
export type { ThinnedTrace } from "./measured-bodies.js";
export { type ChosenSite, type Limb, limbOfDigit, type Place } from "./places.js";
export { canonicalText } from "./plain-data.js";
export { thinTrace } from "./thin-trace.js";
export { isProblem, type NotUnderstood, understand, validateEvent } from "./validate-event.js";
export {
  type Answer,
  type CaseView,
  type Constriction,
  type CorrectionMade,
  emptyView,
  type Pair,
  type ReadingMark,
  type SourceNow,
  type TakenReading,
  type Told,
  type Unread,
} from "./view.js";
export * from "./vocabulary.js";
export { latestWallTime, type WallTime, wallTime } from "./wall-clock.js";
