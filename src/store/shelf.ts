/** The small part in which keepers of events differ; `create-store.ts` makes an `EventStore` of it. */
import type { CaseEvent } from "../case/index.js";
import type { Result, StoreFailure } from "./store-failure.js";

/** How an event lies on the shelf. What is sealed or encrypted later lies in `event`; the key stays in the clear. */
export interface Row {
  readonly case: string;
  readonly device: string;
  readonly seq: number;
  readonly at: number;
  readonly kind: string;
  readonly event: unknown;
}

export function rowOf(event: CaseEvent): Row {
  const { case: of, device, seq, at, kind } = event;
  return { case: of, device, seq, at, kind, event };
}

/** One case, without its readings and findings. */
export interface Landmarks {
  readonly case: string;
  readonly count: number;
  readonly lastAt: number | null;
  /** Rows of the kinds in `landmarkKinds`. */
  readonly rows: readonly unknown[];
}

/** Enough to tell a case's name, and whether it is closed, as they were last corrected. */
export const landmarkKinds = ["case-opened", "case-closed", "correction"] as const;

export interface Shelf {
  readonly kind: "memory" | "browser-database";
  readonly lasting: boolean;
  /** All or none; `null` once durable. An equal row under the same key is passed over, an unequal one is `taken`. */
  write(events: readonly CaseEvent[]): Promise<StoreFailure | null>;
  /** Rows of a case as they lie there, by device, then number. */
  rows(caseId: string): Promise<Result<readonly unknown[]>>;
  /** By case id. */
  landmarks(): Promise<Result<readonly Landmarks[]>>;
  /** Calls when another store has written to the same shelf; at most one listener. */
  onOthers(listener: (caseId: string) => void): void;
  /** Calls when the shelf was taken away, by a newer program or by clearing; at most one listener. */
  onTakenAway(listener: (failure: StoreFailure) => void): void;
  close(): Promise<void>;
}
