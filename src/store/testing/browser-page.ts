/**
 * What runs inside a real browser: bundled into one script, its functions are called from the tests by name and
 * answer with plain data.
 */
import { openDB } from "idb";
import { canonicalText } from "../../case/index.js";
import { databaseVersion, openDatabase } from "../browser-database.js";
import { openBrowserStore } from "../browser-store.js";
import type { EventStore, StoreNews } from "../event-store.js";
import { openStore } from "../open-store.js";
import type { Result } from "../store-failure.js";
import { kept, note, storeContract } from "./store-contract.js";

async function must(name: string): Promise<EventStore> {
  const opened = await openBrowserStore(name);
  if (!opened.ok) throw new Error(`${opened.failure.code} ${opened.failure.detail}`);
  return opened.value;
}

const code = (result: Result<unknown>) => (result.ok ? "ok" : result.failure.code);
const numbers = async (store: EventStore) => (await kept(store)).map((event) => event.seq);

/** Puts another function in place of one of the browser's, as long as `job` runs. */
async function stubbed<T extends object, K extends keyof T, R>(
  object: T,
  key: K,
  other: (original: T[K]) => T[K],
  job: () => Promise<R>,
): Promise<R> {
  const original = object[key];
  object[key] = other(original);
  try {
    return await job();
  } finally {
    object[key] = original;
  }
}

const quota = () => new DOMException("no room left", "QuotaExceededError");

/** One promise of the contract, each over its own database. */
export async function promise(name: string): Promise<string> {
  const stores: EventStore[] = [];
  await storeContract
    .find((one) => one.name === name)!
    .run(async () => {
      const store = await must(`contract: ${name}`);
      stores.push(store);
      return store;
    });
  for (const store of stores) await store.close();
  return "kept";
}

/** The second of two adds finds no room: nothing of the batch is there, it waits, and goes in once there is. */
export async function fullInMidBatch() {
  const store = await must("full");
  const news: StoreNews[] = [];
  store.watch((one) => news.push(one));
  await store.append([note("a", 0)]);
  let adds = 0;
  const answer = await stubbed(
    IDBObjectStore.prototype,
    "add",
    (add) =>
      function (this: IDBObjectStore, ...args) {
        adds += 1;
        if (adds === 2) throw quota();
        return add.apply(this, args);
      },
    () => store.append([note("a", 1), note("a", 2)]),
  );
  const [during, waiting] = [await numbers(store), store.waiting.map((event) => event.seq)];
  const later = code(await store.append([note("a", 3)]));
  return {
    answer: code(answer),
    during,
    waiting,
    later,
    after: await numbers(store),
    news: news.map((n) => n.type),
  };
}

let filled: EventStore | null = null;

/** Appends a hundred at a time until the storage, whose quota the test has made small, takes no more. */
export async function fill(mostBatches: number) {
  filled = await must("filled");
  for (let batch = 0; batch < mostBatches; batch++) {
    const events = Array.from({ length: 100 }, (_, i) =>
      note("a", 100 * batch + i, { body: { text: randomText() } }),
    );
    const answer = await filled.append(events);
    if (!answer.ok)
      return { answer: code(answer), appended: 100 * (batch + 1), waiting: filled.waiting.length };
  }
  return { answer: "ok", appended: 100 * mostBatches, waiting: 0 };
}

/** 1800 letters that do not compress away. */
function randomText(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(900));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Tries again in the same page, now that there is room. */
export async function flushFilled() {
  const answer = code(await filled!.flush());
  return { answer, kept: await numbers(filled!), waiting: filled!.waiting.length };
}

/** The browser cuts the connection: the next write opens it again. */
export async function cutConnection() {
  const store = await must("cut");
  await store.append([note("a", 0)]);
  let cuts = 0;
  const answer = await stubbed(
    IDBDatabase.prototype,
    "transaction",
    (transaction) =>
      function (this: IDBDatabase, ...args) {
        cuts += 1;
        if (cuts === 1) throw new DOMException("The database connection is closing.", "InvalidStateError");
        return transaction.apply(this, args);
      },
    () => store.append([note("a", 1)]),
  );
  return { answer: code(answer), cuts, kept: await numbers(store) };
}

/** A newer program opens the same database in another connection; this one hears of it before it writes again. */
export async function newerProgram() {
  const store = await must("newer");
  const news: StoreNews[] = [];
  store.watch((one) => news.push(one));
  const under = code(await store.append([note("a", 0)]));
  const newer = await openDatabase("newer", { takenAway: () => {}, cut: () => {} }, databaseVersion + 1);
  const heard = news.map((one) => (one.type === "trouble" ? one.failure.code : one.type));
  const answers = [under, code(newer), code(await store.append([note("a", 1)]))];
  const again = code(await openBrowserStore("newer"));
  const there = newer.ok ? (await newer.value.getAll("events")).map((row) => row.seq) : [];
  return { answers, again, there, waiting: store.waiting.map((event) => event.seq), heard };
}

/** An older program holds the database and does not let go until later. */
export async function olderProgramHolds() {
  const older = await openDB("older", 1, { upgrade: (database) => void database.createObjectStore("x") });
  let closed = 0;
  return stubbed(
    IDBDatabase.prototype,
    "close",
    (close) =>
      function (this: IDBDatabase) {
        closed += 1;
        close.call(this);
      },
    async () => {
      const opened = await openDatabase("older", { takenAway: () => {}, cut: () => {} }, 2);
      older.close();
      // Opens come one after another: when this one is there, the late one has been answered.
      await openDB("older", 2);
      return { answer: code(opened), closed };
    },
  );
}

export async function noDatabase(how: "forbidden" | "broken") {
  const error = new DOMException("refused", how === "forbidden" ? "SecurityError" : "UnknownError");
  return stubbed(
    IDBFactory.prototype,
    "open",
    () => () => {
      throw error;
    },
    async () => {
      const { store, failure } = await openStore("none");
      const answer = code(await store.append([note("a", 0)]));
      return {
        kind: store.kind,
        lasting: store.lasting,
        failure: failure?.code,
        answer,
        kept: await numbers(store),
      };
    },
  );
}

/** Rows as a fault of the disk or another program may leave them. */
export async function tornRows() {
  const store = await must("torn");
  await store.append([note("a", 0), note("a", 3)]);
  const raw = await openDB("torn");
  const key = { case: "case-1", device: "a" };
  await raw.put("events", { ...key, seq: 1 });
  await raw.put("events", {
    ...key,
    seq: 2,
    at: 5,
    kind: "case-opened",
    event: { ...note("a", 2), body: undefined },
  });
  await raw.put("events", { ...key, seq: 4, event: note("b", 4) });
  raw.close();
  const [read, cases] = [await store.read("case-1"), await store.cases()];
  return {
    seqs: read.ok ? read.value.events.map((event) => event.seq) : [],
    problems: read.ok ? read.value.problems.map((problem) => problem.code) : [],
    cases: cases.ok ? cases.value.map(({ case: id, events, lastAt }) => ({ id, events, lastAt })) : [],
  };
}

/** How the transactions ask to be written. */
export async function durability() {
  const store = await must("durability");
  const asked: (string | undefined)[] = [];
  await stubbed(
    IDBDatabase.prototype,
    "transaction",
    (transaction) =>
      function (this: IDBDatabase, ...args) {
        if (args[1] === "readwrite") asked.push(args[2]?.durability);
        return transaction.apply(this, args);
      },
    () => store.append([note("a", 0)]),
  );
  return asked;
}

/** Writes without end, and tells of each number once it is durable. */
export async function writeWithoutEnd(device: string, told: (seq: number) => Promise<void>) {
  const store = await must("killed");
  for (let seq = 0; ; seq++) {
    const result = await store.append([note(device, seq, { body: { text: "x".repeat(1900) } })]);
    if (!result.ok) throw new Error(result.failure.detail);
    void told(seq);
  }
}

/** What a new browser finds: numbers by device, and how many rows could not be read. */
export async function found(name: string) {
  const store = await must(name);
  const read = await store.read("case-1");
  if (!read.ok) throw new Error(read.failure.detail);
  const byDevice: Record<string, number[]> = {};
  for (const { device, seq } of read.value.events) byDevice[device] = [...(byDevice[device] ?? []), seq];
  const whole = read.value.events.every(({ body }) => canonicalText(body).length === 1911);
  return { byDevice, problems: read.value.problems.length, whole };
}

/** Appends some events of one device, all at once. */
export async function appendSome(name: string, device: string, count: number) {
  const store = await must(name);
  const calls = Array.from({ length: count }, (_, seq) => store.append([note(device, seq)]));
  return [...new Set((await Promise.all(calls)).map(code))];
}

export async function seqsOf(name: string) {
  return (await kept(await must(name))).map(({ device, seq }) => `${device}${seq}`);
}
