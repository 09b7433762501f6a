/** Every kind of event, its version, and the shape of its body. A row is changed only with its version. */
import {
  actDone,
  caseClosed,
  correction,
  findingTyped,
  momentSet,
  noteWritten,
  recheckSet,
} from "./care-bodies.js";
import { comparisonAnswered, numbersTyped, readingTaken } from "./measured-bodies.js";
import {
  aimChosen,
  caseOpened,
  concernSet,
  pumpMarked,
  sceneChosen,
  sidesConfirmed,
  sitesChosen,
  sourceAttached,
  sourceLost,
  sourceRegained,
  stepReached,
} from "./setting-bodies.js";
import type { Of, Shape } from "./shape.js";

export const eventKinds = {
  "case-opened": { v: 1, body: caseOpened },
  "step-reached": { v: 1, body: stepReached },
  "concern-set": { v: 1, body: concernSet },
  "aim-chosen": { v: 1, body: aimChosen },
  "scene-chosen": { v: 1, body: sceneChosen },
  "sites-chosen": { v: 1, body: sitesChosen },
  "sides-confirmed": { v: 1, body: sidesConfirmed },
  "source-attached": { v: 1, body: sourceAttached },
  "source-lost": { v: 1, body: sourceLost },
  "source-regained": { v: 1, body: sourceRegained },
  "pump-marked": { v: 1, body: pumpMarked },
  "reading-taken": { v: 1, body: readingTaken },
  "comparison-answered": { v: 1, body: comparisonAnswered },
  "numbers-typed": { v: 1, body: numbersTyped },
  "act-done": { v: 1, body: actDone },
  "finding-typed": { v: 1, body: findingTyped },
  "note-written": { v: 1, body: noteWritten },
  "moment-set": { v: 1, body: momentSet },
  "recheck-set": { v: 1, body: recheckSet },
  correction: { v: 1, body: correction },
  "case-closed": { v: 1, body: caseClosed },
} as const satisfies Readonly<Record<string, { readonly v: number; readonly body: Shape<unknown> }>>;

export type EventKind = keyof typeof eventKinds;
export type BodyOf<K extends EventKind> = Of<(typeof eventKinds)[K]["body"]>;

export function isEventKind(kind: string): kind is EventKind {
  return Object.hasOwn(eventKinds, kind);
}
