/** What can go wrong where events are kept, as values: the medic is told, and nothing told is dropped for it. */

interface FailureRow {
  readonly fate: "waits" | "refused";
  readonly words: string;
}

/**
 * What becomes of the events of a failed append:
 * - `waits`: held in order, and written at the next append or `flush`
 * - `refused`: not taken; the caller still has them
 */
export const failures = {
  full: { fate: "waits", words: "the storage of this device is full" },
  failed: { fate: "waits", words: "the storage of this device did not take it" },
  outdated: {
    fate: "waits",
    words:
      "another tab runs a newer version of this program, or the storage was cleared: load this page again",
  },
  closed: { fate: "refused", words: "the record was closed in this tab" },
  taken: {
    fate: "refused",
    words: "another event has this device's number: two writers share one device id",
  },
  "not-an-event": { fate: "refused", words: "this is not an event of a case" },
  blocked: { fate: "refused", words: "another tab holds an older version of the record open: close it" },
  "no-database": {
    fate: "refused",
    words: "this browser keeps nothing here, as in a private window: when the tab closes, the record is gone",
  },
} as const satisfies Readonly<Record<string, FailureRow>>;

export type FailureCode = keyof typeof failures;

export interface StoreFailure {
  readonly code: FailureCode;
  readonly fate: "waits" | "refused";
  /** A plain clause, no capital, no full stop. */
  readonly words: string;
  /** What the browser said, or which event; `""` where there is nothing to add. */
  readonly detail: string;
}

export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly failure: StoreFailure };

export function storeFailure(code: FailureCode, detail = ""): StoreFailure {
  return { code, ...failures[code], detail };
}

export const done = <T>(value: T): Result<T> => ({ ok: true, value });
export const failing = <T>(failure: StoreFailure): Result<T> => ({ ok: false, failure });

/**
 * Names of exceptions as in the Indexed Database API 3.0, section 8 (exceptions), and Web IDL: the storage is full,
 * and the record in it was made by a newer program. All others are `failed`.
 */
export function failureOf(error: unknown): StoreFailure {
  const name = error instanceof Error || error instanceof DOMException ? error.name : "";
  const detail = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  if (name === "QuotaExceededError") return storeFailure("full", detail);
  if (name === "VersionError") return storeFailure("outdated", detail);
  return storeFailure("failed", detail);
}
