/** The store a screen works with: the browser's database, or memory where there is none, and then it is said. */
import { openBrowserStore } from "./browser-store.js";
import type { EventStore } from "./event-store.js";
import { createMemoryStore } from "./memory-store.js";
import type { StoreFailure } from "./store-failure.js";

export interface OpenedStore {
  readonly store: EventStore;
  /** Why the record will not outlive this tab; `null` if it will. To be shown as long as the store is used. */
  readonly failure: StoreFailure | null;
}

/** Never fails: a medic can work in any case. */
export async function openStore(name: string): Promise<OpenedStore> {
  const opened = await openBrowserStore(name);
  return opened.ok
    ? { store: opened.value, failure: null }
    : { store: createMemoryStore(), failure: opened.failure };
}
