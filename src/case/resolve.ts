/** What each event says now: corrections laid over what they correct, and what could not be read set aside. */
import type { CaseEvent, EventOf, KnownEvent } from "./event.js";
import { bodyMovesSide } from "./sides-moved.js";
import { understand } from "./validate-event.js";
import type { CorrectionMade, Unread } from "./view.js";

export interface Resolved {
  /** In order, with the bodies that hold now; withdrawn ones, corrections and confirmations are left out. */
  readonly events: readonly KnownEvent[];
  readonly corrections: readonly CorrectionMade[];
  readonly unread: readonly Unread[];
  /** Ids that `sides-confirmed` names. */
  readonly confirmed: ReadonlySet<string>;
  /** Ids of events corrected or withdrawn. */
  readonly corrected: ReadonlySet<string>;
}

type Correction = EventOf<"correction">;

/** @param events in order, no id twice */
export function resolve(events: readonly CaseEvent[]): Resolved {
  const why = new Map<string, Unread["why"]>();
  const known = new Map<string, KnownEvent>();
  for (const event of events) {
    const read = event.case === events[0]!.case ? understand(event) : "other-case";
    if (typeof read === "string") why.set(event.id, read);
    else known.set(event.id, read);
  }

  const byRoot = new Map<string, Correction[]>();
  for (const event of known.values()) {
    if (event.kind !== "correction") continue;
    const root = rootOf(event, known);
    if (root === null) why.set(event.id, "target-missing");
    else byRoot.set(root, [...(byRoot.get(root) ?? []), event]);
  }

  const confirmed = new Set<string>();
  const corrected = new Set<string>();
  const made: CorrectionMade[] = [];
  const settle = (event: KnownEvent): KnownEvent | null => {
    const result = layOver(event, byRoot.get(event.id) ?? [], confirmed);
    for (const id of result.broken) why.set(id, "broken-body");
    if (result.made.some((one) => one.taken)) corrected.add(event.id);
    made.push(...result.made);
    return result.now;
  };
  // Confirmations first: whether a correction may move a side hangs on them.
  for (const event of known.values()) {
    const now = event.kind === "sides-confirmed" ? settle(event) : null;
    if (now?.kind === "sides-confirmed") confirmed.add(now.body.confirms);
  }
  const settled = [...known.values()]
    .filter((event) => event.kind !== "sides-confirmed" && event.kind !== "correction")
    .flatMap((event) => settle(event) ?? []);

  const place = new Map(events.map((event, i) => [event.id, i]));
  return {
    events: settled,
    corrections: made.sort((a, b) => place.get(a.event)! - place.get(b.event)!),
    unread: events.flatMap((event) => (why.has(event.id) ? [{ event, why: why.get(event.id)! }] : [])),
    confirmed,
    corrected,
  };
}

/** A correction of a correction corrects what that one corrects; `null` if that is missing or goes in a circle. */
function rootOf(from: Correction, known: ReadonlyMap<string, KnownEvent>): string | null {
  const seen = new Set<string>();
  let at: KnownEvent | undefined = from;
  while (at?.kind === "correction") {
    if (seen.has(at.id)) return null;
    seen.add(at.id);
    at = known.get(at.body.corrects);
  }
  return at?.id ?? null;
}

/** The last correction holds. One that moves a side is kept waiting until it is confirmed (S4). */
function layOver(
  event: KnownEvent,
  corrections: readonly Correction[],
  confirmed: ReadonlySet<string>,
): {
  readonly now: KnownEvent | null;
  readonly made: readonly CorrectionMade[];
  readonly broken: readonly string[];
} {
  let last = event;
  let now: KnownEvent | null = event;
  const made: CorrectionMade[] = [];
  const broken: string[] = [];
  for (const { id, at, device, body } of corrections) {
    const next = body.body === null ? null : understand({ ...event, body: body.body });
    if (typeof next === "string") {
      broken.push(id);
      continue;
    }
    const taken = next === null || !bodyMovesSide(last, next) || confirmed.has(id);
    made.push({
      event: id,
      at,
      device,
      target: event.id,
      was: now?.body ?? null,
      now: body.body,
      why: body.why,
      taken,
    });
    if (!taken) continue;
    now = next;
    last = next ?? last;
  }
  return { now, made, broken };
}
