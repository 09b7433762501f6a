/** Anything read back is checked here before it is believed. */
import type { Problem } from "../model/index.js";
import type { CaseEvent, KnownEvent } from "./event.js";
import { eventKinds, isEventKind } from "./event-kinds.js";
import { notPlain } from "./plain-data.js";
import { anything, code, type Fault, id, moment, record, whole } from "./shape.js";

const envelope = record({
  id,
  case: id,
  at: moment,
  seq: whole(0, Number.MAX_SAFE_INTEGER, ""),
  device: id,
  kind: code,
  v: whole(1, 1_000_000, ""),
  body: anything,
});

/** Why an event, though kept, is not understood. */
export type NotUnderstood = "unknown-kind" | "newer-version" | "broken-body";

function problem(problemCode: string, fault: Fault, from: string): Problem {
  const where = [from, fault.where].filter((part) => part !== "").join(": ");
  return { code: problemCode, weight: "lost-part", where, expected: fault.expected, found: fault.found };
}

/**
 * @param from  where the value was read, for the message
 * @returns the very value as an event, kinds and versions not known here included; or a problem:
 *   `event-not-plain` (JSON would not carry it), `event-envelope`, `event-body` (a known kind and version, and
 *   the body is not of its shape)
 */
export function validateEvent(value: unknown, from = "event"): CaseEvent | Problem {
  const odd = notPlain(value);
  if (odd !== null) return problem("event-not-plain", { ...odd, expected: "plain data" }, from);
  const fault = envelope.check(value, "");
  if (fault !== null) return problem("event-envelope", fault, from);
  const event = value as CaseEvent;
  const inside = bodyFault(event);
  return inside === null ? event : problem("event-body", inside, from);
}

function bodyFault(event: CaseEvent): Fault | null {
  if (!isEventKind(event.kind)) return null;
  const row = eventKinds[event.kind];
  if (event.v > row.v) return null;
  return row.body.check(event.body, "body");
}

export function isProblem(value: CaseEvent | Problem): value is Problem {
  return !("seq" in value);
}

/** The event with its type known, or why it is not understood. */
export function understand(event: CaseEvent): KnownEvent | NotUnderstood {
  if (!isEventKind(event.kind)) return "unknown-kind";
  if (event.v > eventKinds[event.kind].v) return "newer-version";
  if (notPlain(event.body) !== null || bodyFault(event) !== null) return "broken-body";
  return event as KnownEvent;
}
