/** An `EventStore` over any shelf: checks what comes in and out, keeps order, holds what could not be written. */
import { isProblem, validateEvent } from "../case/index.js";
import { describeProblem } from "../model/index.js";
import type { EventStore, StoreNews } from "./event-store.js";
import { readBack, summarize } from "./read-back.js";
import type { Shelf } from "./shelf.js";
import { done, failing, type Result, storeFailure } from "./store-failure.js";
import { createWriteQueue } from "./write-queue.js";

export function createStore(shelf: Shelf): EventStore {
  const listeners = new Set<(news: StoreNews) => void>();
  const tell = (news: StoreNews) => {
    for (const listener of [...listeners]) {
      try {
        listener(news);
      } catch (error) {
        // A screen that fails must not stop the writing; its fault still reaches whoever listens for faults.
        queueMicrotask(() => {
          throw error;
        });
      }
    }
  };
  const queue = createWriteQueue((events) => shelf.write(events), tell);
  let closed = false;
  shelf.onOthers((caseId) => tell({ type: "kept", case: caseId, here: false }));
  shelf.onTakenAway((failure) => tell({ type: "trouble", failure, waiting: queue.waiting.length }));

  const whileOpen = async <T>(work: () => Promise<Result<T>>): Promise<Result<T>> =>
    closed ? failing(storeFailure("closed")) : work();

  return {
    kind: shelf.kind,
    lasting: shelf.lasting,
    append: (events) =>
      whileOpen(async () => {
        for (const event of events) {
          const checked = validateEvent(event);
          if (isProblem(checked)) return failing(storeFailure("not-an-event", describeProblem(checked)));
        }
        // A copy: what is held must not change with the caller's own.
        return events.length === 0 ? done(null) : queue.append(structuredClone(events));
      }),
    flush: () => whileOpen(() => queue.flush()),
    get waiting() {
      return queue.waiting;
    },
    read: (caseId) =>
      whileOpen(async () => {
        const rows = await shelf.rows(caseId);
        return rows.ok ? done(readBack(caseId, rows.value)) : rows;
      }),
    cases: () =>
      whileOpen(async () => {
        const marks = await shelf.landmarks();
        return marks.ok ? done(marks.value.map(summarize)) : marks;
      }),
    watch(listener) {
      // Wrapped, so that one function may watch twice and end each by itself.
      const own = (news: StoreNews) => listener(news);
      listeners.add(own);
      return () => listeners.delete(own);
    },
    async close() {
      if (closed) return;
      closed = true;
      await queue.flush();
      await shelf.close();
    },
  };
}
