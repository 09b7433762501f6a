/** Keeps events in the browser's database: durable when told so, shared by all tabs of the origin. */
import { canonicalText } from "../case/index.js";
import { type Database, openDatabase } from "./browser-database.js";
import { readLandmarks } from "./browser-landmarks.js";
import { createStore } from "./create-store.js";
import type { EventStore } from "./event-store.js";
import { rowOf, type Shelf } from "./shelf.js";
import { done, failing, failureOf, type Result, type StoreFailure, storeFailure } from "./store-failure.js";

/** @param name  of the database; one for each set of records that are kept apart */
export async function openBrowserStore(name: string): Promise<Result<EventStore>> {
  const shelf = await openBrowserShelf(name);
  return shelf.ok ? done(createStore(shelf.value)) : shelf;
}

async function openBrowserShelf(name: string): Promise<Result<Shelf>> {
  let open: Database | null = null;
  let gone: StoreFailure | null = null;
  let takenAway: (failure: StoreFailure) => void = () => {};
  const losses = {
    takenAway: () => {
      gone = storeFailure("outdated");
      open = null;
      takenAway(gone);
    },
    cut: () => {
      open = null;
    },
  };

  const connect = async (): Promise<Result<Database>> => {
    if (gone !== null) return failing(gone);
    if (open !== null) return done(open);
    const opened = await openDatabase(name, losses);
    if (opened.ok) open = opened.value;
    return opened;
  };

  /** A browser may cut an idle connection, and says so late: then it is opened again, once. */
  const work = async <T>(
    job: (database: Database) => Promise<Result<T>>,
    again = true,
  ): Promise<Result<T>> => {
    const database = await connect();
    if (!database.ok) return failing(waiting(database.failure));
    try {
      return await job(database.value);
    } catch (error) {
      const cut = error instanceof DOMException && error.name === "InvalidStateError";
      if (!cut || !again) return failing(failureOf(error));
      if (open === database.value) open = null;
      return work(job, false);
    }
  };

  const first = await connect();
  if (!first.ok) return first;
  // Older browsers and some private modes have none: then other tabs are read when they are looked at.
  const channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel(`${name} kept`);

  return done({
    kind: "browser-database",
    lasting: true,
    async write(events) {
      const result = await work((database) => writeRows(database, events));
      if (!result.ok) return result.failure;
      for (const of of new Set(events.map((event) => event.case))) channel?.postMessage(of);
      return null;
    },
    rows: (caseId) =>
      work(async (database) =>
        done(await database.getAll("events", IDBKeyRange.bound([caseId], [caseId, []]))),
      ),
    landmarks: () => work(async (database) => done(await readLandmarks(database))),
    onOthers(listener) {
      channel?.addEventListener("message", ({ data }) => {
        if (typeof data === "string") listener(data);
      });
    },
    onTakenAway(listener) {
      takenAway = listener;
    },
    async close() {
      channel?.close();
      open?.close();
    },
  });
}

/** Once a store is open, a database that cannot be reopened is a reason to wait, not to refuse. */
function waiting(failure: StoreFailure): StoreFailure {
  return failure.fate === "waits" ? failure : storeFailure("failed", `${failure.code}: ${failure.detail}`);
}

/**
 * One transaction, all or none. `strict`: the browser answers only when the operating system has been told to
 * write it to the disk itself (Indexed Database API 3.0, section 2.7, durability hint).
 */
async function writeRows(database: Database, events: Parameters<Shelf["write"]>[0]): Promise<Result<null>> {
  const change = database.transaction("events", "readwrite", { durability: "strict" });
  // Its failure is met below as well; unheard here, it would end as an unhandled rejection.
  change.done.catch(() => {});
  try {
    for (const event of events) {
      const row = rowOf(event);
      const there = await change.store.get([row.case, row.device, row.seq]);
      if (there === undefined) await change.store.add(row);
      else if (canonicalText(there.event) !== canonicalText(event)) {
        change.abort();
        return failing(storeFailure("taken", `${event.device} ${event.seq}`));
      }
    }
    await change.done;
    return done(null);
  } catch (error) {
    // Any failure must leave nothing of the batch behind, and tell why it failed rather than that it was undone.
    try {
      change.abort();
    } catch {
      // It was over already.
    }
    throw change.error ?? error;
  }
}
