/**
 * Time columns, end to end. Expected values follow from the formula the rows were sampled from
 * (`wave` at its true time), not from this reader.
 */
import { describe, expect, test } from "vitest";
import { readTable } from "./testing/read-table.js";
import { wave, waveTable } from "./testing/table-text.js";

/** Largest distance of grid samples from the formula at their grid time; NaN samples left out. */
function farthest(values: readonly number[], rate: number, at: (t: number) => number = (t) => t): number {
  let most = 0;
  for (const [k, value] of values.entries()) {
    if (!Number.isNaN(value)) most = Math.max(most, Math.abs(value - wave(at(k / rate))));
  }
  return most;
}

const sixDecimals = 5.1e-7;

/** `%.5g`, as the BIDMC tables print their time. */
const fiveDigits = (t: number) => String(Number(t.toPrecision(5)));

describe("even times pass bit for bit at the plain rate", () => {
  test.each<[what: string, rate: number, stamp: (t: number) => string, header: string]>([
    ["seconds, three decimals", 125, (t) => t.toFixed(3), "time_s,PLETH"],
    ["five significant digits, to 1060 s", 125, fiveDigits, "Time [s],PLETH"],
    ["whole milliseconds", 62.5, (t) => Math.round(1000 * t).toFixed(0), "TIMESTAMP_MS,PLETH"],
    ["whole milliseconds, cut off", 300, (t) => Math.floor(1000 * t + 1e-6).toFixed(0), "t_ms,PLETH"],
    ["microseconds without a unit", 100, (t) => (7e6 + 1e6 * t).toFixed(0), "timestamp,PLETH"],
    ["milliseconds since 1970", 50, (t) => (1_700_000_000_000 + 1000 * t).toFixed(0), "time,PLETH"],
    ["seconds since 1970", 50, (t) => (1_700_000_000 + t).toFixed(2), "timestamp,PLETH"],
    ["ISO 8601 with zone", 25, (t) => `2024-03-01T23:59:${(10 + t).toFixed(2)}+01:00`, "time,PLETH"],
    ["no header", 125, (t) => t.toFixed(3), ""],
  ])("%s, %d per second", async (what, rate, stamp, header) => {
    const rows = what.startsWith("five") ? 125 * 1060 : what.startsWith("ISO") ? 25 * 45 : 2000;
    const { channels, values, problems } = await readTable(
      waveTable({ rows, at: (n) => n / rate, stamp, header }),
    );
    expect(channels[0]?.rate).toBe(rate);
    expect(channels[0]?.samples).toBe(rows);
    expect(values[0]).toHaveLength(rows);
    expect(farthest(values[0]!, rate)).toBeLessThan(sixDecimals);
    const assumed = what.includes("without") ? ["time-unit-assumed"] : [];
    expect(problems.map(({ code }) => code)).toEqual(what === "no header" ? ["kind-assumed"] : assumed);
  });
});

describe("times of day", () => {
  const clock = (t: number) => {
    const ms = Math.round(1000 * (86_390 + t)) % 86_400_000;
    const two = (n: number) => String(Math.floor(n)).padStart(2, "0");
    return `${two(ms / 3_600_000)}:${two((ms / 60_000) % 60)}:${two((ms / 1000) % 60)}.${String(ms % 1000).padStart(3, "0")}`;
  };
  test("go on over midnight, with a note", async () => {
    const { channels, values, codes } = await readTable(
      waveTable({ rows: 2000, at: (n) => n / 50, stamp: clock, header: "time,PLETH" }),
    );
    expect(channels[0]?.rate).toBe(50);
    expect(values[0]).toHaveLength(2000);
    expect(farthest(values[0]!, 50)).toBeLessThan(sixDecimals);
    expect(codes).toEqual(["midnight-passed"]);
  });

  test("in whole seconds still give the rate, over a minute", async () => {
    const stamp = (t: number) => clock(t - 9000).slice(0, 8);
    const { channels, values, codes } = await readTable(
      waveTable({ rows: 6000, at: (n) => n / 100, stamp, header: "time,PLETH" }),
    );
    expect(channels[0]!.rate).toBeCloseTo(100, 1);
    expect(values[0]!.filter(Number.isNaN)).toEqual([]);
    expect(codes).toEqual([]);
  });
});

describe("an uneven clock", () => {
  // Up to 100 ms off any constant rate, as in the P12 recording.
  const drifting = (n: number) => n / 250 + 0.1 * Math.sin(n / 4000) ** 2;
  test("is followed: samples lie at their true times", async () => {
    const stamp = (t: number) => Math.floor(1000 * t).toFixed(0);
    const { channels, values, codes } = await readTable(
      waveTable({ rows: 60_000, at: drifting, stamp, header: "clock_ms,PPG Finger" }),
    );
    expect(codes).toEqual(["clock-uneven"]);
    const { rate } = channels[0]!;
    // The wave's steepest slope is about 7000 per second, so 14 is 2 ms; stamps are cut to 1 ms, of which the mean half remains.
    expect(farthest(values[0]!, rate)).toBeLessThan(14);
    expect(values[0]!.length / rate).toBeCloseTo(drifting(59_999) + 1 / rate, 2);
  });

  test("flat tops stay flat and nothing passes the rails", async () => {
    const clipped = (n: number) => Math.min(2400, Math.max(1700, Math.round(wave(drifting(n)))));
    const text = Array.from(
      { length: 20_000 },
      (_, n) => `${Math.floor(1000 * drifting(n))},${clipped(n)}\n`,
    );
    const { values, codes } = await readTable(`clock_ms,PPG\n${text.join("")}`);
    expect(codes).toEqual(["clock-uneven"]);
    expect(Math.max(...values[0]!)).toBe(2400);
    expect(Math.min(...values[0]!)).toBe(1700);
    const atRail = values[0]!.filter((value) => value === 2400).length;
    const rowsAtRail = Array.from({ length: 20_000 }, (_, n) => clipped(n)).filter(
      (value) => value === 2400,
    ).length;
    expect(atRail / rowsAtRail).toBeGreaterThan(0.95);
  });
});

describe("gaps", () => {
  const at = (n: number) => n / 100 + (n >= 300 ? 1.73 : 0);
  const stamp = (t: number) => Math.round(1000 * t).toFixed(0);
  test("become missing samples of the same length, with their place", async () => {
    const { values, problems } = await readTable(waveTable({ rows: 1000, at, stamp, header: "t_ms,PLETH" }));
    expect(values[0]).toHaveLength(1173);
    expect(values[0]!.map(Number.isNaN).indexOf(true)).toBe(300);
    expect(values[0]!.filter(Number.isNaN)).toHaveLength(173);
    expect(farthest(values[0]!, 100)).toBeLessThan(sixDecimals);
    expect(problems).toEqual([
      {
        code: "gap",
        weight: "note",
        where: "a.csv, line 302",
        expected: "rows without gaps",
        found: "1.73 s missing",
      },
    ]);
  });

  test("of one row are seen on a fine clock", async () => {
    const one = (n: number) => n / 100 + (n >= 300 ? 0.01 : 0);
    const { values, codes } = await readTable(
      waveTable({ rows: 1000, at: one, stamp, header: "t_ms,PLETH" }),
    );
    expect(values[0]).toHaveLength(1001);
    expect(values[0]!.flatMap((value, k) => (Number.isNaN(value) ? [k] : []))).toEqual([300]);
    expect(codes).toEqual(["gap"]);
  });

  test("of no whole number of intervals leave the rows after them at their true times", async () => {
    const odd = (n: number) => n / 100 + (n >= 300 ? 1.734 : 0);
    const { values, codes } = await readTable(
      waveTable({ rows: 1000, at: odd, stamp, header: "t_ms,PLETH" }),
    );
    expect(codes).toEqual(["gap", "gap-off-grid"]);
    // Worst where a straight line is taken, beside the gap: h²/8 × max |f''|, textbook bound of linear interpolation.
    const bend = (2 * Math.PI * 1.3) ** 2 * 500 + (2 * Math.PI * 2.6) ** 2 * 150;
    expect(farthest(values[0]!, 100)).toBeLessThan((0.01 ** 2 / 8) * bend);
  });

  test("too long to fill end the recording there, and are told", async () => {
    const years = (n: number) => n / 100 + (n >= 300 ? 1e8 : 0);
    const { values, problems } = await readTable(
      waveTable({ rows: 1000, at: years, stamp: (t) => t.toFixed(3), header: "time_s,PLETH" }),
    );
    expect(values[0]).toHaveLength(300);
    expect(problems.map(({ code, weight }) => [code, weight])).toEqual([["gap-too-long", "lost-part"]]);
  });
});

describe("broken stamps are told and never move other rows", () => {
  const rows = 1000;
  const cases: readonly [code: string, spoil: (n: number, stamp: string) => string][] = [
    ["time-outlier", (n, stamp) => (n === 400 ? "99999999" : stamp)],
    ["time-outlier", (n, stamp) => (n === 400 ? "0" : stamp)],
    ["time-missing", (n, stamp) => (n % 100 === 7 ? "" : stamp)],
    ["time-backwards", (n, stamp) => (n === 400 ? String(Number(stamp) - 11) : stamp)],
  ];
  test.each(cases)("%s", async (code, spoil) => {
    const stamp = (t: number, n: number) => spoil(n, (5000 + Math.round(1000 * t)).toFixed(0));
    const { values, codes } = await readTable(
      waveTable({ rows, at: (n) => n / 100, stamp, header: "t_ms,PLETH" }),
    );
    expect(values[0]).toHaveLength(rows);
    expect(farthest(values[0]!, 100)).toBeLessThan(sixDecimals);
    expect(codes).toEqual([code]);
  });

  test("a repeated row is left out", async () => {
    const lines = waveTable({ rows, at: (n) => n / 100, stamp: (t) => t.toFixed(3) }).split("\n");
    lines.splice(500, 0, lines[500]!);
    const { values, codes } = await readTable(lines.join("\n"));
    expect(values[0]).toHaveLength(rows);
    expect(farthest(values[0]!, 100)).toBeLessThan(sixDecimals);
    expect(codes).toEqual(["time-doubled"]);
  });

  test("a restarted clock loses the place of what follows, and says so", async () => {
    const stamp = (t: number) => (t < 4 ? 50 + t : t - 4).toFixed(3);
    const { values, problems } = await readTable(waveTable({ rows, at: (n) => n / 100, stamp }));
    expect(values[0]).toHaveLength(rows + 1);
    expect(values[0]!.map(Number.isNaN).indexOf(true)).toBe(400);
    expect(problems.map(({ code, weight }) => [code, weight])).toContainEqual([
      "clock-restarted",
      "lost-part",
    ]);
  });
});

describe("a rate that cannot be known is fatal, and says how to state it", () => {
  test.each([
    ["no clock", "PLETH,II\n1,2\n3,4\n5,6\n"],
    ["a clock that stands still", `time_s,PLETH\n${"5,1\n".repeat(50)}`],
    [
      "steps of one without a unit",
      `time,PLETH\n${Array.from({ length: 50 }, (_, n) => `${n},7\n`).join("")}`,
    ],
    ["one row", "time_s,PLETH\n0,7\n"],
  ])("%s", async (_, text) => {
    const { channels, problems } = await readTable(text);
    expect(channels).toEqual([]);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ code: "rate-unknown", weight: "fatal" });
    expect(problems[0]?.expected).toContain("--rate");
    const stated = await readTable(text, { rate: 50 });
    expect(stated.channels.map(({ rate }) => rate).every((rate) => rate === 50)).toBe(true);
    expect(stated.values.flat().length).toBeGreaterThan(0);
  });

  test("a stated rate overrides the clock, with a note", async () => {
    const { channels, codes } = await readTable(
      waveTable({ rows: 500, at: (n) => n / 100, stamp: (t) => t.toFixed(2) }),
      { rate: 99 },
    );
    expect(channels[0]?.rate).toBe(99);
    expect(codes).toEqual(["clock-set-aside"]);
  });
});

describe("counters that run over", () => {
  test.each([
    ["16 bits, milliseconds", 125, (t: number) => Math.round(1000 * t + 60_000) % 65_536, "t_ms,PLETH", 16],
    [
      "32 bits, microseconds",
      100,
      (t: number) => Math.round(1e6 * t + 4_290_000_000) % 2 ** 32,
      "t_us,PLETH",
      32,
    ],
    [
      "16 bits, milliseconds without a unit",
      50,
      (t: number) => Math.round(1000 * t) % 65_536,
      "timestamp,PLETH",
      16,
    ],
  ])("%s: time goes on, with a note", async (_, rate, stamp, header, bits) => {
    const { channels, values, problems } = await readTable(
      waveTable({ rows: 100 * rate, at: (n) => n / rate, stamp: (t) => String(stamp(t)), header }),
    );
    expect(channels[0]?.rate).toBe(rate);
    expect(values[0]).toHaveLength(100 * rate);
    expect(farthest(values[0]!, rate)).toBeLessThan(sixDecimals);
    const told = problems.filter(({ code }) => code !== "time-unit-assumed");
    expect(told).toMatchObject([{ code: "clock-wrapped", weight: "note" }]);
    expect(told[0]?.found).toContain(`a counter of ${bits} bits`);
  });

  test("a device that was switched off and on is a restart, as before", async () => {
    const stamp = (t: number) => String(Math.round(1000 * (t < 30 ? t : t - 30)));
    const { codes } = await readTable(
      waveTable({ rows: 6000, at: (n) => n / 100, stamp, header: "t_ms,PLETH" }),
    );
    expect(codes).toContain("clock-restarted");
    expect(codes).not.toContain("clock-wrapped");
  });
});
