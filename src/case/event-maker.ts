/** Makes a device's events for one case. Clock, ids and the first number are arguments. */
import type { CaseEvent, EventOf } from "./event.js";
import { type BodyOf, type EventKind, eventKinds } from "./event-kinds.js";
import { isProblem, validateEvent } from "./validate-event.js";
import type { WallTime } from "./wall-clock.js";

/** A body that is not of its kind's shape: the caller's mistake. */
export class CaseError extends Error {
  override readonly name = "CaseError";
  constructor(
    readonly code: "event-body",
    detail: string,
  ) {
    super(`${code}: ${detail}`);
  }
}

export interface EventMakerInput {
  readonly case: string;
  readonly device: string;
  /** See `nextSeq`. */
  readonly firstSeq: number;
  readonly now: () => WallTime;
  readonly newId: () => string;
}

/**
 * @returns one call, one event; numbers rise by one whatever the clock does
 * @throws {CaseError} `event-body`; no number is used up
 */
export function createEventMaker(
  input: EventMakerInput,
): <K extends EventKind>(kind: K, body: BodyOf<K>) => EventOf<K> {
  let seq = input.firstSeq;
  return (kind, body) => {
    const { case: of, device } = input;
    const event = {
      id: input.newId(),
      case: of,
      at: input.now(),
      seq,
      device,
      kind,
      v: eventKinds[kind].v,
      body,
    };
    const checked = validateEvent(event);
    if (isProblem(checked)) throw new CaseError("event-body", `${checked.where}: ${checked.expected}`);
    seq += 1;
    return event;
  };
}

/** The number after the highest the device has used in these events of the case; 0 for a new one. */
export function nextSeq(events: readonly CaseEvent[], device: string): number {
  return events.reduce((next, event) => (event.device === device ? Math.max(next, event.seq + 1) : next), 0);
}
