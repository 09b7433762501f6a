import { describe, expect, test } from "vitest";
import { readFully } from "./read-fully.js";
import { memorySource } from "./testing/memory-source.js";

const bytes = Uint8Array.from({ length: 100 }, (_, n) => n);

describe("a full read", () => {
  test.each([1, 7, 99, 1000])("joins answers of at most %d bytes", async (most) => {
    const got = await readFully(memorySource("a", bytes, most), 20, 50);
    expect([...got]).toEqual([...bytes.subarray(20, 70)]);
  });

  test("ends where the source ends", async () => {
    expect([...(await readFully(memorySource("a", bytes, 3), 95, 50))]).toEqual([95, 96, 97, 98, 99]);
    expect(await readFully(memorySource("a", bytes), 100, 5)).toHaveLength(0);
  });

  test("passes on the failure of a broken disk", async () => {
    const broken = { name: "a", size: 100, read: () => Promise.reject(new Error("unreadable sector")) };
    await expect(readFully(broken, 0, 10)).rejects.toThrow("unreadable sector");
  });
});
