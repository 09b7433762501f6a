/** From events to what is known now. The same events in any order, any of them twice, give the same view. */
import type { CaseEvent } from "./event.js";
import { compareKeys, type OrderKey, orderEvents } from "./event-order.js";
import { type Resolved, resolve } from "./resolve.js";
import { type StepContext, stepView } from "./step-view.js";
import { understand } from "./validate-event.js";
import { type CaseView, emptyView } from "./view.js";

export interface CaseFold {
  /**
   * Takes events in any order and answers with the view of all so far. What comes last in order costs the same
   * however long the record is; a late arrival, a correction or a confirmation folds all anew.
   */
  add(events: readonly CaseEvent[]): CaseView;
  readonly view: CaseView;
}

export function fold(events: readonly CaseEvent[]): CaseView {
  return createCaseFold().add(events);
}

export function createCaseFold(): CaseFold {
  let all: CaseEvent[] = [];
  let ids = new Set<string>();
  /** Ids that corrections and confirmations name: their events cannot be taken by themselves. */
  let named = new Set<string>();
  let clocks = new Map<string, { readonly seq: number; readonly time: number }>();
  let last: OrderKey | null = null;
  let context: StepContext = { confirmed: new Set(), corrected: new Set() };
  let view = emptyView;

  const foldAnew = () => {
    const { events, sameId, last: end } = orderEvents(all);
    all = [...events, ...sameId];
    last = end;
    ids = new Set(events.map((event) => event.id));
    named = new Set(events.flatMap(namedBy));
    clocks = new Map();
    for (const { device, seq, at } of events) {
      clocks.set(device, { seq, time: Math.max(at, clocks.get(device)?.time ?? 0) });
    }
    const resolved = resolve(events);
    context = contextOf(resolved);
    const start: CaseView = {
      ...emptyView,
      case: events[0]?.case ?? null,
      corrections: resolved.corrections,
      unread: [...sameId.map((event) => ({ event, why: "same-id" as const })), ...resolved.unread],
    };
    view = resolved.events.reduce((now, event) => stepView(now, event, context), start);
  };

  /** Takes an event that comes last and touches no other; `false` if it must be folded with the rest. */
  const takeLast = (event: CaseEvent): boolean => {
    const clock = clocks.get(event.device);
    const time = Math.max(event.at, clock?.time ?? 0);
    const key = { time, device: event.device, seq: event.seq, id: event.id };
    const alone = !ids.has(event.id) && !named.has(event.id) && namedBy(event).length === 0;
    const inOrder =
      (clock === undefined || event.seq > clock.seq) && last !== null && compareKeys(last, key) < 0;
    if (!alone || !inOrder) return false;
    all.push(event);
    ids.add(event.id);
    clocks.set(event.device, { seq: event.seq, time });
    last = key;
    const read = event.case === view.case ? understand(event) : "other-case";
    view =
      typeof read === "string"
        ? { ...view, unread: [...view.unread, { event, why: read }] }
        : stepView(view, read, context);
    return true;
  };

  return {
    add(events) {
      let late = false;
      for (const event of events) {
        if (!late && takeLast(event)) continue;
        all.push(event);
        late = true;
      }
      if (late) foldAnew();
      return view;
    },
    get view() {
      return view;
    },
  };
}

/** The id another event hangs on, if this kind names one. */
function namedBy(event: CaseEvent): readonly string[] {
  const read = understand(event);
  if (typeof read === "string") return [];
  if (read.kind === "correction") return [read.body.corrects];
  return read.kind === "sides-confirmed" ? [read.body.confirms] : [];
}

/** A chosen site counts as confirmed through a confirmed correction of it as well. */
function contextOf({ confirmed, corrected, corrections }: Resolved): StepContext {
  const through = corrections.filter((one) => one.taken && confirmed.has(one.event)).map((one) => one.target);
  return { confirmed: new Set([...confirmed, ...through]), corrected };
}
