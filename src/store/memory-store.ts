/** Keeps events as long as the tab lives: for tests, and where a browser keeps nothing. */
import { canonicalText } from "../case/index.js";
import { createStore } from "./create-store.js";
import type { EventStore } from "./event-store.js";
import { type Landmarks, landmarkKinds, type Row, rowOf, type Shelf } from "./shelf.js";
import { done, storeFailure } from "./store-failure.js";

/** Rows that several stores may share, as tabs share a database. */
export interface MemoryRows {
  readonly byKey: Map<string, Row>;
  readonly listeners: Set<(caseId: string) => void>;
}

export const memoryRows = (): MemoryRows => ({ byKey: new Map(), listeners: new Set() });

const keyOf = (row: Row) => JSON.stringify([row.case, row.device, row.seq]);
const byText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);

export function createMemoryStore(rows: MemoryRows = memoryRows()): EventStore {
  return createStore(createMemoryShelf(rows));
}

export function createMemoryShelf({ byKey, listeners }: MemoryRows): Shelf {
  let listener: ((caseId: string) => void) | null = null;
  const inOrder = () =>
    [...byKey.values()].sort((a, b) => byText(a.case, b.case) || byText(a.device, b.device) || a.seq - b.seq);
  return {
    kind: "memory",
    lasting: false,
    async write(events) {
      const fresh = new Map(events.map((event) => [keyOf(rowOf(event)), rowOf(structuredClone(event))]));
      for (const event of events) {
        const key = keyOf(rowOf(event));
        const there = byKey.get(key) ?? fresh.get(key)!;
        if (canonicalText(there.event) !== canonicalText(event)) return storeFailure("taken", key);
      }
      for (const [key, row] of fresh) if (!byKey.has(key)) byKey.set(key, row);
      for (const of of new Set(events.map((event) => event.case))) {
        for (const other of listeners) if (other !== listener) other(of);
      }
      return null;
    },
    rows: async (caseId) => done(structuredClone(inOrder().filter((row) => row.case === caseId))),
    async landmarks() {
      const marks = new Map<string, Landmarks>();
      for (const row of inOrder()) {
        const { count, lastAt, rows } = marks.get(row.case) ?? { count: 0, lastAt: null, rows: [] };
        marks.set(row.case, {
          case: row.case,
          count: count + 1,
          lastAt: Math.max(row.at, lastAt ?? 0),
          rows: landmarkKinds.some((kind) => kind === row.kind) ? [...rows, structuredClone(row)] : rows,
        });
      }
      return done([...marks.values()]);
    },
    onOthers(call) {
      listener = call;
      listeners.add(call);
    },
    onTakenAway() {
      // Nobody can take a tab's own memory away.
    },
    async close() {
      if (listener !== null) listeners.delete(listener);
    },
  };
}
