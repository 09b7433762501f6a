import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readFiles } from "./testing/wfdb-files.js";

const folder = new URL("golden/flac/", import.meta.url);
const expected = JSON.parse(readFileSync(new URL("expected.json", folder), "utf8")) as Record<
  string,
  number[][]
>;
const bytes = (name: string) => new Uint8Array(readFileSync(new URL(name, folder)));
const record = (name: string, dat = bytes(`${name}.dat`)) => ({
  [`${name}.hea`]: bytes(`${name}.hea`),
  [`${name}.dat`]: dat,
});

// Oracle: the reference encoder flac 1.4.2; see golden/flac/made-by.md.
describe.each(Object.keys(expected))("FLAC record %s", (name) => {
  const due = expected[name]!.map((all) => all.map((v) => (v === -32_768 ? Number.NaN : v)));

  test("gives back every number that went in", async () => {
    const { values, codes } = await readFiles(record(name));
    expect(values).toEqual(due);
    expect(codes).toEqual([]);
  });

  test("a damaged frame is missing, told with its place, and the frames after it are right", async () => {
    const struck = bytes(`${name}.dat`);
    const at = Math.floor(struck.length * 0.5);
    struck[at] = struck[at]! ^ 0x10;
    const { values, recording } = await readFiles(record(name, struck));
    const missing = values[0]!.filter(Number.isNaN).length - due[0]!.filter(Number.isNaN).length;
    expect(missing).toBeGreaterThan(0);
    expect(missing).toBeLessThanOrEqual(576);
    for (const [c, channel] of values.entries()) {
      for (const [n, value] of channel.entries()) {
        if (!Number.isNaN(value)) expect(value).toBe(due[c]![n]);
      }
    }
    expect(values[0]!.at(-1)).toBe(due[0]!.at(-1));
    expect(recording.problems[0]).toMatchObject({ code: "flac-frame", weight: "lost-part" });
    expect(recording.problems[0]!.where).toMatch(/byte \d+/);
  });

  test("cut in the middle: the frames before the cut are right, the rest is missing", async () => {
    const all = bytes(`${name}.dat`);
    const { values, codes } = await readFiles(record(name, all.slice(0, Math.floor(all.length * 0.7))));
    const held = values[0]!.findLastIndex((value) => !Number.isNaN(value)) + 1;
    expect(held).toBeGreaterThan(190);
    expect(held).toBeLessThan(900);
    for (const [c, channel] of values.entries()) {
      expect(channel).toHaveLength(due[c]!.length);
      expect(channel.slice(0, held)).toEqual(due[c]!.slice(0, held));
    }
    expect(codes).toContain("file-short lost-part");
  });
});

describe("a FLAC file that does not fit its header", () => {
  const header = (lines: string[]) => [`a ${lines.length} 125 900`, ...lines].join("\n");
  test.each([
    {
      why: "other bytes",
      dat: new Uint8Array(500),
      lines: ["a.dat 516 1 16", "a.dat 516 1 16"],
      code: "flac-header",
    },
    { why: "too few signals", dat: bytes("f516mid.dat"), lines: ["a.dat 516 1 16"], code: "flac-channels" },
    {
      why: "another width",
      dat: bytes("f508.dat"),
      lines: ["a.dat 516 1 16", "a.dat 516 1 16"],
      code: "flac-channels",
    },
    {
      why: "two rates",
      dat: bytes("f516mid.dat"),
      lines: ["a.dat 516x2 1 16", "a.dat 516 1 16"],
      code: "flac-channels",
    },
  ])("$why: told, nothing made up", async ({ dat, lines, code }) => {
    const { values, codes } = await readFiles({ "a.hea": header(lines), "a.dat": dat });
    expect(codes).toContain(`${code} lost-part`);
    expect(codes).toContain("no-samples fatal");
    expect(values.flat().every(Number.isNaN)).toBe(true);
  });
});
