/**
 * What every `EventStore` promises. Runs in Node and, bundled, in a browser, so it brings its own way to compare.
 * `open` gives another store over the same rows each time, as another tab would.
 */
import { type CaseEvent, canonicalText, type KnownEvent, wallTime } from "../../case/index.js";
import type { EventStore, StoreNews } from "../event-store.js";
import type { Result } from "../store-failure.js";

export interface StorePromise {
  readonly name: string;
  run(open: () => Promise<EventStore>): Promise<void>;
}

export function same(actual: unknown, expected: unknown, what: string): void {
  const [found, wanted] = [actual, expected].map((value) => canonicalText(value ?? null));
  if (found !== wanted) throw new Error(`${what}: expected ${wanted}, found ${found}`);
}

/** A note by `device`; `changes` make it another kind, or odd. */
export function note(device: string, seq: number, changes: Partial<CaseEvent> = {}): CaseEvent {
  const text = `note ${seq} of ${device}`;
  const plain = { id: `${device}-${seq}`, case: "case-1", at: wallTime(1000 + seq), seq, device };
  return { ...plain, kind: "note-written", v: 1, body: { text }, ...changes };
}

const known = <K extends KnownEvent["kind"]>(kind: K, body: Extract<KnownEvent, { kind: K }>["body"]) => ({
  kind,
  body,
});

export async function kept(store: EventStore, caseId = "case-1"): Promise<readonly CaseEvent[]> {
  const read = await store.read(caseId);
  if (!read.ok) throw new Error(`not read: ${read.failure.code} ${read.failure.detail}`);
  same(read.value.problems, [], "problems on reading back");
  return read.value.events;
}

const code = (result: Result<unknown>) => (result.ok ? "ok" : result.failure.code);
const numbers = (count: number) => Array.from({ length: count }, (_, i) => i);

export const storeContract: readonly StorePromise[] = [
  {
    name: "gives back what was appended, by device and number",
    async run(open) {
      const store = await open();
      same(code(await store.append([note("b", 0), note("b", 1)])), "ok", "append");
      same(code(await store.append([note("a", 10), note("a", 9)])), "ok", "append");
      same(await kept(store), [note("a", 9), note("a", 10), note("b", 0), note("b", 1)], "events");
    },
  },
  {
    name: "has kept an event once append answers: another store reads it at once",
    async run(open) {
      const [store, other] = [await open(), await open()];
      await store.append([note("a", 0)]);
      same(await kept(other), [note("a", 0)], "events");
    },
  },
  {
    name: "keeps cases apart, and knows nothing of an unknown one",
    async run(open) {
      const store = await open();
      await store.append([note("a", 0), note("a", 0, { case: "case-2", id: "x" })]);
      same((await kept(store, "case-2")).length, 1, "events of the second case");
      same((await kept(store, "case")).length, 0, "events of a case with the beginning of its name");
    },
  },
  {
    name: "keeps a doubled event once, in one call or two",
    async run(open) {
      const store = await open();
      same(code(await store.append([note("a", 0), note("a", 0)])), "ok", "doubled in one call");
      same(code(await store.append([note("a", 0), note("a", 1)])), "ok", "sent again with the next");
      same(await kept(store), [note("a", 0), note("a", 1)], "events");
    },
  },
  {
    name: "refuses a number that another event has, with all of its call, and changes nothing (S8)",
    async run(open) {
      const store = await open();
      const news: StoreNews[] = [];
      store.watch((one) => news.push(one));
      await store.append([note("a", 1)]);
      const forged = note("a", 1, { id: "other", body: { text: "changed" } });
      same(code(await store.append([note("a", 0), forged])), "taken", "append");
      same(code(await store.append([note("a", 2), { ...note("a", 2), id: "x" }])), "taken", "in one call");
      same(await kept(store), [note("a", 1)], "events");
      same(
        news.map((one) => one.type),
        ["kept", "refused", "refused"],
        "news",
      );
      same(store.waiting, [], "waiting");
    },
  },
  {
    name: "refuses what is no event, and the rest of its call",
    async run(open) {
      const store = await open();
      const odd = { ...note("a", 1), at: Number.NaN } as CaseEvent;
      same(code(await store.append([note("a", 0), odd])), "not-an-event", "append");
      same(await kept(store), [], "events");
    },
  },
  {
    name: "gives back unknown kinds, newer versions and unknown fields unchanged",
    async run(open) {
      const store = await open();
      const odd = [
        note("a", 0, { kind: "blood-drawn", body: { tubes: [1, null, "ö\u0000"] } }),
        note("a", 1, { v: 7, body: null }),
        { ...note("a", 2), seal: { before: "ab", deep: { er: true } } },
      ];
      same(code(await store.append(odd)), "ok", "append");
      same(await kept(store), odd, "events");
    },
  },
  {
    name: "keeps its own copy: an event changed afterwards by its writer or reader stays as it was",
    async run(open) {
      const store = await open();
      const body = { text: "as told" };
      const appended = store.append([note("a", 0, { body })]);
      body.text = "changed while it was written";
      await appended;
      body.text = "changed after";
      for (const event of await kept(store)) (event.body as { text: string }).text = "changed by a reader";
      same((await kept(store))[0]?.body, { text: "as told" }, "body");
    },
  },
  {
    name: "keeps the order of calls that do not wait for each other",
    async run(open) {
      const store = await open();
      const order: number[] = [];
      const calls = numbers(40).map(async (seq) => {
        await store.append([note("a", seq)]);
        order.push(seq);
      });
      await Promise.all(calls);
      same(order, numbers(40), "order of the answers");
      same(
        (await kept(store)).map((event) => event.seq),
        numbers(40),
        "numbers",
      );
    },
  },
  {
    name: "loses nothing when two write at once",
    async run(open) {
      const [one, two] = [await open(), await open()];
      const calls = numbers(30).flatMap((seq) => [
        one.append([note("a", seq)]),
        two.append([note("b", seq)]),
      ]);
      same([...new Set((await Promise.all(calls)).map(code))], ["ok"], "answers");
      const expected = ["a", "b"].flatMap((device) => numbers(30).map((seq) => note(device, seq)));
      same(await kept(one), expected, "events");
    },
  },
  {
    name: "lets one of two win each number they both use, and tells the other",
    async run(open) {
      const stores = [await open(), await open()];
      const calls = stores.flatMap((store, who) =>
        numbers(20).map(async (seq) => ({
          id: `${who}-${seq}`,
          answer: code(await store.append([note("a", seq, { id: `${who}-${seq}` })])),
        })),
      );
      const answers = await Promise.all(calls);
      const won = answers.filter((one) => one.answer === "ok").map((one) => one.id);
      same(answers.filter((one) => one.answer === "taken").length, 20, "told that the number is taken");
      same((await kept(stores[0]!)).map((event) => event.id).sort(), won.sort(), "events kept");
    },
  },
  {
    name: "does not mind a clock that stutters or runs back",
    async run(open) {
      const store = await open();
      const times = [5000, 5000, 100, 7000, 0].map(wallTime);
      await store.append(times.map((at, seq) => note("a", seq, { at })));
      same(
        (await kept(store)).map((event) => event.at),
        times,
        "times in the order of the numbers",
      );
      const cases = await store.cases();
      same(cases.ok && cases.value[0]?.lastAt, 7000, "latest time told");
    },
  },
  {
    name: "lists cases with the name and the end that hold after corrections",
    async run(open) {
      const store = await open();
      const opened = (seq: number, of: string, name: string) =>
        note("a", seq, { case: of, id: `${of}-${seq}`, ...known("case-opened", { name }) });
      const closed = note("a", 1, { case: "one", id: "end", ...known("case-closed", { why: null }) });
      const reopened = note("a", 2, {
        case: "one",
        ...known("correction", { corrects: "end", body: null, why: null }),
      });
      const end = note("a", 4, { case: "two", id: "end-2", ...known("case-closed", { why: null }) });
      await store.append([opened(0, "one", "LARK-27"), closed, reopened]);
      await store.append([
        opened(3, "two", "FLINT-40"),
        end,
        note("b", 0, { case: "two", at: wallTime(9999) }),
      ]);
      await store.append([note("a", 0, { case: "nameless" })]);
      const cases = await store.cases();
      const row = { closedAt: null, openedAt: 1000, lastAt: 1002, events: 3 };
      same(
        cases.ok && cases.value,
        [
          { case: "nameless", name: null, closedAt: null, openedAt: null, lastAt: 1000, events: 1 },
          { ...row, case: "one", name: "LARK-27" },
          { ...row, case: "two", name: "FLINT-40", openedAt: 1003, closedAt: 1004, lastAt: 9999 },
        ],
        "cases",
      );
    },
  },
  {
    name: "tells watchers what is kept, here and by others, until they end it",
    async run(open) {
      const [store, other] = [await open(), await open()];
      const news: StoreNews[] = [];
      const told = new Promise<void>((resolve) => {
        other.watch((one) => {
          if (one.type === "kept" && !one.here) resolve();
        });
      });
      const end = store.watch((one) => news.push(one));
      await store.append([note("a", 0)]);
      await told;
      end();
      await store.append([note("a", 1)]);
      same(news, [{ type: "kept", case: "case-1", here: true }], "news");
    },
  },
  {
    name: "takes an append of nothing, and a flush when nothing waits",
    async run(open) {
      const store = await open();
      same([code(await store.append([])), code(await store.flush())], ["ok", "ok"], "answers");
      same(store.waiting, [], "waiting");
    },
  },
  {
    name: "finishes what is under way when closed, and then answers that it is closed",
    async run(open) {
      const [store, other] = [await open(), await open()];
      const calls = numbers(10).map((seq) => store.append([note("a", seq)]));
      await store.close();
      same([...new Set((await Promise.all(calls)).map(code))], ["ok"], "appends under way");
      const late = [await store.append([note("a", 10)]), await store.read("case-1"), await store.cases()];
      same([...late, await store.flush()].map(code), Array(4).fill("closed"), "answers");
      await store.close();
      same((await kept(other)).length, 10, "events kept");
    },
  },
];
