import { describe, expect, test } from "vitest";
import { createMemoryStore, memoryRows } from "./memory-store.js";
import { openStore } from "./open-store.js";
import { note, storeContract } from "./testing/store-contract.js";

describe("the memory store", () => {
  test.each(storeContract)("$name", async ({ run }) => {
    const rows = memoryRows();
    await expect(run(async () => createMemoryStore(rows))).resolves.toBeUndefined();
  });

  test("reads around rows that are torn, foreign or misplaced, and tells of each", async () => {
    const rows = memoryRows();
    const store = createMemoryStore(rows);
    await store.append([0, 1, 2, 3].map((seq) => note("a", seq)));
    const [, second, third, fourth] = [...rows.byKey];
    rows.byKey.set(second![0], { ...second![1], event: undefined });
    rows.byKey.set(third![0], { ...third![1], event: note("a", 7) });
    rows.byKey.set(fourth![0], { ...fourth![1], event: { ...note("a", 3), body: { text: 3 } } });
    const read = await store.read("case-1");
    expect(read.ok && read.value.events).toEqual([note("a", 0)]);
    expect(read.ok && read.value.problems.map((problem) => [problem.code, problem.where])).toEqual([
      ["event-not-plain", "case case-1, row 2"],
      ["event-misplaced", "case case-1, row 3"],
      ["event-body", "case case-1, row 4: body.text"],
    ]);
  });
});

test("a watcher that throws is heard of, and stops nothing", async () => {
  const faults: unknown[] = [];
  const others = process.listeners("uncaughtException");
  process.removeAllListeners("uncaughtException");
  process.on("uncaughtException", (error) => faults.push(error.message));
  try {
    const store = createMemoryStore();
    store.watch(() => {
      throw new Error("screen fault");
    });
    await store.append([note("a", 0)]);
    await store.append([note("a", 1)]);
    await new Promise((resolve) => setImmediate(resolve));
    expect(faults).toEqual(["screen fault", "screen fault"]);
    const read = await store.read("case-1");
    expect(read.ok && read.value.events).toHaveLength(2);
  } finally {
    process.removeAllListeners("uncaughtException");
    for (const other of others) process.on("uncaughtException", other);
  }
});

test("without a browser's database the record is kept in memory, and that is said", async () => {
  const { store, failure } = await openStore("records");
  expect(failure).toMatchObject({
    code: "no-database",
    words: expect.stringContaining("the record is gone"),
  });
  expect(store).toMatchObject({ kind: "memory", lasting: false });
  expect(await store.append([note("a", 0)])).toEqual({ ok: true, value: null });
});
