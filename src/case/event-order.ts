/**
 * The one order of a case's events, whatever order they came in and however often.
 *
 * A device's own events stand by their `seq`: its clock may jump back and they stay where they were written. To
 * lay devices beside each other, an event's time is the latest that its device had told up to it; then by device,
 * then `seq`, then `id`. So a clock that jumps ahead and back puts what follows late among other devices' events,
 * never out of its own order.
 */
import type { CaseEvent } from "./event.js";
import { canonicalText } from "./plain-data.js";

export interface OrderKey {
  /** Latest `at` its device had told up to this event. */
  readonly time: number;
  readonly device: string;
  readonly seq: number;
  readonly id: string;
}

const byText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);

export function compareKeys(a: OrderKey, b: OrderKey): number {
  return a.time - b.time || byText(a.device, b.device) || a.seq - b.seq || byText(a.id, b.id);
}

export interface OrderedEvents {
  readonly events: readonly CaseEvent[];
  /** Of events that share an id and differ, all but the first by canonical text. */
  readonly sameId: readonly CaseEvent[];
  readonly last: OrderKey | null;
}

/** Sorts, and leaves out what is there twice. */
export function orderEvents(all: readonly CaseEvent[]): OrderedEvents {
  const { kept, sameId } = withoutDoubles(all);
  const own = [...kept].sort(
    (a, b) => byText(a.device, b.device) || a.seq - b.seq || a.at - b.at || byText(a.id, b.id),
  );
  let device: string | null = null;
  let time = 0;
  const rows = own.map((event) => {
    time = event.device === device ? Math.max(time, event.at) : event.at;
    device = event.device;
    return { event, key: { time, device: event.device, seq: event.seq, id: event.id } };
  });
  rows.sort((a, b) => compareKeys(a.key, b.key));
  return { events: rows.map((row) => row.event), sameId, last: rows.at(-1)?.key ?? null };
}

function withoutDoubles(all: readonly CaseEvent[]): Pick<OrderedEvents, "sameId"> & { kept: CaseEvent[] } {
  const byId = new Map<string, CaseEvent[]>();
  for (const event of all) byId.set(event.id, [...(byId.get(event.id) ?? []), event]);
  const kept: CaseEvent[] = [];
  const others: { readonly text: string; readonly event: CaseEvent }[] = [];
  for (const events of byId.values()) {
    if (events.length === 1) {
      kept.push(events[0]!);
      continue;
    }
    const texts = new Map(events.map((event) => [canonicalText(event), event]));
    const [first, ...rest] = [...texts].sort(([a], [b]) => byText(a, b));
    kept.push(first![1]);
    others.push(...rest.map(([text, event]) => ({ text, event })));
  }
  return { kept, sameId: others.sort((a, b) => byText(a.text, b.text)).map((other) => other.event) };
}
