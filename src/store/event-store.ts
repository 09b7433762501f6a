/** Where events are kept. Whatever keeps them, the promises are these; `testing/store-contract.ts` holds all to them. */
import type { CaseEvent, WallTime } from "../case/index.js";
import type { Problem } from "../model/index.js";
import type { Result, StoreFailure } from "./store-failure.js";

/** What was read back: all events that can be believed, and a problem for each row that cannot. */
export interface CaseRead {
  /** By device, then by number. */
  readonly events: readonly CaseEvent[];
  readonly problems: readonly Problem[];
}

/** For the list of cases to reopen. */
export interface CaseSummary {
  readonly case: string;
  /** `null` if the opening event is missing or cannot be read. */
  readonly name: string | null;
  readonly openedAt: WallTime | null;
  readonly closedAt: WallTime | null;
  /** Latest moment told by any device. */
  readonly lastAt: WallTime | null;
  readonly events: number;
}

/**
 * - `kept`: events of a case are durable, by this store or (`here` false) by another tab
 * - `trouble`: a write failed; `waiting` events are held and will be tried again
 * - `refused`: these events will not be tried again
 */
export type StoreNews =
  | { readonly type: "kept"; readonly case: string; readonly here: boolean }
  | { readonly type: "trouble"; readonly failure: StoreFailure; readonly waiting: number }
  | { readonly type: "refused"; readonly failure: StoreFailure; readonly events: readonly CaseEvent[] };

export interface EventStore {
  readonly kind: "memory" | "browser-database";
  /** Whether it outlives the tab. */
  readonly lasting: boolean;
  /**
   * Keeps the events of one call together, all or none, after those of earlier calls. Answers `ok` only when they
   * are durable. An event that is there already is kept once. On a failure that `waits` they are held and tried
   * again, in order, at the next append or `flush`; `watch` tells what became of them.
   */
  append(events: readonly CaseEvent[]): Promise<Result<null>>;
  /** Tries again to write what waits; `ok` when nothing does. */
  flush(): Promise<Result<null>>;
  /** Told and not yet durable, in order: to be shown, and saved by other means if the storage stays full. */
  readonly waiting: readonly CaseEvent[];
  /** What is durable of one case; empty for an unknown one. */
  read(caseId: string): Promise<Result<CaseRead>>;
  /** All cases, by id. */
  cases(): Promise<Result<readonly CaseSummary[]>>;
  /** @returns a call that ends it */
  watch(listener: (news: StoreNews) => void): () => void;
  /** Finishes the writes under way, then answers every call with `closed`. What waits stays in `waiting`. */
  close(): Promise<void>;
}
