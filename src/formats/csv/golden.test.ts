import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readTable } from "./testing/read-table.js";

const folder = new URL("golden/", import.meta.url);
const names = readdirSync(folder, { withFileTypes: true })
  .filter((one) => one.isDirectory())
  .map(({ name }) => name);

interface Expected {
  readonly file: string;
  readonly started: string | null;
  readonly seconds: readonly number[];
  readonly channels: Readonly<Record<string, readonly (number | null)[]>>;
}

/** Units and notes each table must give besides its values. */
const besides: Readonly<Record<string, { units: string[]; codes: string[] }>> = {
  "semicolon-decimal-comma": { units: ["mV", "%"], codes: [] },
  "iso-times-quoted-cells": { units: ["", ""], codes: [] },
  "tabs-utf16-missing-words": { units: ["", ""], codes: [] },
  "monitor-export-over-midnight": { units: ["mm[Hg]", "", ""], codes: ["midnight-passed"] },
  "blanks-percent-comment": { units: ["", ""], codes: [] },
};

/** Cells of a column of remarks as Python's csv reads them from the same file; a line end within one becomes a blank. */
const remarks: Readonly<Record<string, [time: number, text: string][]>> = {
  "iso-times-quoted-cells": [
    [0.12, 'a "quoted" word, a comma and a second line'],
    [2.4, 'a "quoted" word, a comma and a second line'],
  ],
};

// Oracle: Python's csv, float and datetime; see golden/made-by.md.
describe.each(names)("%s", (name) => {
  test("has the times and values Python reads from it", async () => {
    const expected = JSON.parse(readFileSync(new URL(`${name}/expected.json`, folder), "utf8")) as Expected;
    const table = await readTable(new Uint8Array(readFileSync(new URL(`${name}/${expected.file}`, folder))));
    const titles = Object.keys(expected.channels);
    expect(table.channels.map((channel) => channel.name).slice(0, titles.length)).toEqual(titles);
    for (const [c, title] of titles.entries()) {
      expect(table.values[c]!.map((value) => (Number.isNaN(value) ? null : value))).toEqual(
        expected.channels[title],
      );
      for (const [k, time] of expected.seconds.entries())
        expect(k / table.channels[c]!.rate).toBeCloseTo(time, 6);
    }
    const started = table.recording.startedAt;
    expect(started === null ? null : Date.parse(started)).toBe(
      expected.started === null || name.includes("midnight") ? null : Date.parse(expected.started),
    );
    expect(table.channels.map(({ unit }) => unit)).toEqual(besides[name]?.units);
    expect(table.codes).toEqual(besides[name]?.codes);
    expect(table.recording.annotations.map(({ time, text }) => [time, text])).toEqual(remarks[name] ?? []);
  });
});
