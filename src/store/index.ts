/** Where events are kept. */
export { openBrowserStore } from "./browser-store.js";
export type { CaseRead, CaseSummary, EventStore, StoreNews } from "./event-store.js";
export { createMemoryStore, type MemoryRows, memoryRows } from "./memory-store.js";
export { type OpenedStore, openStore } from "./open-store.js";
export { type FailureCode, failures, type Result, type StoreFailure } from "./store-failure.js";
