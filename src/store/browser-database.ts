/** The browser's database of events: its tables, how it is opened, and when this tab must let go of it. */
import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import type { Row } from "./shelf.js";
import { done, failing, failureOf, type Result, storeFailure } from "./store-failure.js";

export interface Tables extends DBSchema {
  events: {
    key: [string, string, number];
    value: Row;
    indexes: {
      "by-kind": string;
      "by-time": [string, number];
    };
  };
}

export type Database = IDBPDatabase<Tables>;

/** Rises with every change to `build`; a later version builds on what it finds. */
export const databaseVersion = 1;

function build(database: Database): void {
  const events = database.createObjectStore("events", { keyPath: ["case", "device", "seq"] });
  events.createIndex("by-kind", "kind");
  events.createIndex("by-time", ["case", "at"]);
}

export interface Losses {
  /** A newer program or a clearing of the storage wants it: the connection is closed already. */
  readonly takenAway: () => void;
  /** The browser cut the connection; it may be opened again. */
  readonly cut: () => void;
}

/**
 * @returns `blocked` while another tab holds an older version open, `outdated` if the database is of a newer
 *   program, `no-database` if the browser has none to give (private windows, storage forbidden), `full`
 */
export function openDatabase(
  name: string,
  losses: Losses,
  version = databaseVersion,
): Promise<Result<Database>> {
  return new Promise((resolve) => {
    let late = false;
    const give = (result: Result<Database>) => {
      if (late && result.ok) result.value.close();
      late = true;
      resolve(result);
    };
    // In one call, for a browser may refuse at once or later, or have no `indexedDB` to ask.
    const opening = async () =>
      openDB<Tables>(name, version, {
        upgrade: (database, from) => {
          if (from < 1) build(database);
        },
        blocked: () => give(failing(storeFailure("blocked"))),
        blocking: (_from, _to, event) => {
          // Not to hold up the newer program: writes under way are finished by the browser before it closes.
          (event.target as IDBDatabase).close();
          losses.takenAway();
        },
        terminated: losses.cut,
      });
    opening().then(
      (database) => give(done(database)),
      (error: unknown) => give(failing(openingFailure(error))),
    );
  });
}

function openingFailure(error: unknown) {
  const failure = failureOf(error);
  return failure.code === "failed" ? storeFailure("no-database", failure.detail) : failure;
}
