/** Events and beats written into tables. Expected times are row number over rate, as the rows were made. */
import { describe, expect, test } from "vitest";
import { readTable } from "./testing/read-table.js";
import { wave } from "./testing/table-text.js";

const rate = 50;

/** `time_s,PLETH` and further columns, 400 rows of 20 ms; `at` gives the cells of the further columns. */
function tableOf(
  names: string,
  at: (n: number) => string,
  time: (n: number) => number = (n) => n / rate,
): string {
  const rows = Array.from(
    { length: 400 },
    (_, n) => `${time(n).toFixed(4)},${wave(time(n)).toFixed(3)},${at(n)}`,
  );
  return `time_s,PLETH,${names}\n${rows.join("\n")}\n`;
}

const isBeat = (n: number) => n % 40 === 7;

test.each(["event", "Notes", "marker", "annotation", "comment"])(
  "a column %s of text becomes notes",
  async (name) => {
    const { recording, channels, codes } = await readTable(
      tableOf(name, (n) => (n === 100 ? "cuff up" : n === 300 ? '"said: ""ouch"", moved"' : "")),
    );
    expect(channels.map((channel) => channel.name)).toEqual(["PLETH"]);
    expect(recording.annotations).toEqual([
      { time: 2, duration: null, kind: "note", text: "cuff up" },
      { time: 6, duration: null, kind: "note", text: 'said: "ouch", moved' },
    ]);
    expect(codes).toEqual([]);
  },
);

test("a text held over many rows is told once, and again when it comes back", async () => {
  const { recording } = await readTable(tableOf("label", (n) => (n < 100 || n >= 200 ? "rest" : "arm up")));
  expect(recording.annotations.map(({ time, text }) => [time, text])).toEqual([
    [0, "rest"],
    [2, "arm up"],
    [4, "rest"],
  ]);
});

test.each(["beat", "r_peak", "R-Peaks", "peak", "QRS"])(
  "a column %s of 0 and 1 becomes beats",
  async (name) => {
    const { recording, channels } = await readTable(tableOf(name, (n) => (isBeat(n) ? "1" : "0")));
    expect(channels.map((channel) => channel.name)).toEqual(["PLETH"]);
    const rows = Array.from({ length: 400 }, (_, n) => n).filter(isBeat);
    expect(recording.annotations.map(({ kind }) => kind)).toEqual(rows.map(() => "beat"));
    expect(recording.annotations.map(({ time }) => time)).toEqual(rows.map((n) => n / rate));
  },
);

test("a mark held over some rows is one beat, where it rises", async () => {
  const { recording } = await readTable(tableOf("beat", (n) => (n % 40 >= 7 && n % 40 < 12 ? "1" : "")));
  expect(recording.annotations.map(({ time }) => time)).toEqual(
    Array.from({ length: 10 }, (_, beat) => (40 * beat + 7) / rate),
  );
});

describe("marks lie on the clock of the record", () => {
  test("behind a gap", async () => {
    const time = (n: number) => n / rate + (n >= 200 ? 3 : 0);
    const { recording } = await readTable(tableOf("event", (n) => (n === 250 ? "x" : ""), time));
    expect(recording.annotations[0]?.time).toBeCloseTo(time(250), 9);
  });

  test("along an uneven one", async () => {
    const time = (n: number) => n / rate + 0.15 * Math.sin(n / 60);
    const { recording, codes } = await readTable(tableOf("event", (n) => (n % 100 === 50 ? "x" : ""), time));
    expect(codes).toContain("clock-uneven");
    for (const [i, { time: found }] of recording.annotations.entries()) {
      // Anchors every quarter second; the clock bends by less than 5 ms between them.
      expect(Math.abs(found - time(100 * i + 50))).toBeLessThan(0.01);
    }
    expect(recording.annotations).toHaveLength(4);
  });
});

describe("what stays a channel", () => {
  test.each([
    ["codes in numbers", "marker", (n: number) => String(n % 3)],
    ["a beat column of other numbers", "peak", (n: number) => String(900 + n)],
    ["a beat column that is on most of the time", "beat", (n: number) => (n % 4 === 0 ? "0" : "1")],
    ["a beat column never set", "beat", () => "0"],
    ["text under another name", "ward", () => "blue"],
  ])("%s", async (_, name, at) => {
    const { recording, channels } = await readTable(tableOf(name, at));
    expect(channels.map((channel) => channel.name)).toEqual(["PLETH", name]);
    expect(recording.annotations).toEqual([]);
  });

  test("one whose kind the user stated", async () => {
    const text = tableOf("beat", (n) => (isBeat(n) ? "1" : "0"));
    const { channels } = await readTable(text, { kinds: { beat: "display" } });
    expect(channels.map((channel) => channel.kind)).toEqual(["display-pleth", "display-pleth"]);
  });

  test("the columns of a table that has no others", async () => {
    const text = `time_s,beat\n${Array.from({ length: 100 }, (_, n) => `${n / 50},${n % 40 === 3 ? 1 : 0}`).join("\n")}\n`;
    expect((await readTable(text)).channels.map((channel) => channel.name)).toEqual(["beat"]);
  });
});
