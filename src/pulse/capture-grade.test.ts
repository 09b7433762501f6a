/** The ladder as a whole, by the listener that climbs it. The large counts are in `scripts/accuracy/`. */
import { describe, expect, test } from "vitest";
import { gradeNoise, gradePhaseless, gradeWithoutPulse, listenTo } from "../../scripts/accuracy/grade.js";
import { gradeClean } from "../../scripts/accuracy/grade-clean.js";
import { gradeLadder } from "../../scripts/accuracy/grade-ladder.js";
import { gradeLeftOut } from "../../scripts/accuracy/grade-left-out.js";
import { loadMarked } from "../../scripts/accuracy/recordings.js";
import { captureGrades } from "../model/capture.js";
import { cleanShapes, makeCleanPulses } from "./testing/clean-pulses.js";
import { disturbanceKinds, strokeKinds } from "./testing/disturbances.js";
import { createRandom } from "./testing/noise.js";

const recordings = await loadMarked();
const beating = recordings.filter(({ feet }) => feet.length > 5);

describe("clean pulses of every shape, rate, rhythm and size", () => {
  const rows = gradeClean([25, 125, 500], [0, 0.05]);
  const all = (rhythm: string, from: number, to: number, grade: (typeof captureGrades)[number]) => {
    const some = rows.filter(
      (row) =>
        row.shapes === "steep" &&
        row.noise === 0 &&
        row.rhythm === rhythm &&
        row.perMinute >= from &&
        row.perMinute <= to,
    );
    const total = some.reduce(
      (sum, { counts }) => sum + captureGrades.reduce((n, one) => n + counts[one], 0),
      0,
    );
    return some.reduce((sum, { counts }) => sum + counts[grade], 0) / total;
  };

  test("are never none or off", () => {
    expect(rows.filter(({ counts }) => counts.none + counts.off > 0)).toEqual([]);
  });

  test("are hardly ever unreadable", () => {
    const windows = rows.reduce(
      (sum, { counts }) => sum + captureGrades.reduce((n, one) => n + counts[one], 0),
      0,
    );
    const unreadable = rows.reduce((sum, { counts }) => sum + counts.unreadable, 0);
    expect(windows).toBeGreaterThan(7000);
    expect(unreadable / windows).toBeLessThan(0.005);
  });

  test("without noise and with a steep rise are all solid from 60 to 100/min", () => {
    expect(all("steady", 60, 100, "solid")).toBe(1);
  });

  test.each([
    { rhythm: "steady", from: 30, to: 32, least: 0.8 },
    { rhythm: "steady", from: 210, to: 220, least: 0.8 },
    { rhythm: "irregular", from: 60, to: 75, least: 0.8 },
    { rhythm: "irregular", from: 100, to: 120, least: 0.5 },
  ])("… and mostly solid at $from to $to/min, $rhythm", ({ rhythm, from, to, least }) => {
    expect(all(rhythm, from, to, "solid")).toBeGreaterThan(least);
  });
});

describe("never solid", () => {
  test.each(disturbanceKinds)("%s", (kind) => {
    for (const { counts } of gradeNoise(4, [25, 100, 250], [kind])) expect(counts.solid).toBe(0);
  });

  test("a real recording with its pulse taken out, as it is or with its phases drawn anew", () => {
    const rows = [...gradeWithoutPulse(beating), ...gradePhaseless(beating, 1)];
    expect(rows).toHaveLength(2 * beating.length);
    expect(rows.filter(({ counts }) => counts.solid > 0)).toEqual([]);
  });
});

describe("the pulse of real recordings taken out after half a minute, or made smaller", () => {
  const rows = gradeLadder(beating, [1 / 2, 1 / 4, 1 / 8, 0]).filter(
    ({ before }) => before === "full pulses",
  );
  const share = (of: number, grade: (typeof captureGrades)[number], which: "counts" | "clean" = "counts") => {
    const some = rows.filter((row) => row.share === of).map((row) => row[which]);
    const total = some.reduce((sum, counts) => sum + captureGrades.reduce((n, one) => n + counts[one], 0), 0);
    expect(total).toBeGreaterThan(250);
    return some.reduce((sum, counts) => sum + counts[grade], 0) / total;
  };

  test("out: none where little is left of it, and never solid", () => {
    expect(share(0, "none", "clean")).toBeGreaterThanOrEqual(0.95);
    expect(share(0, "solid")).toBe(0);
  });

  test("a half or a quarter: never none; an eighth: hardly ever", () => {
    expect(share(1 / 2, "none")).toBe(0);
    expect(share(1 / 4, "none")).toBe(0);
    expect(share(1 / 8, "none")).toBeLessThan(0.05);
  });
});

// Strokes of any shape are some of them shaped as a pulse is, which no single channel tells apart; half waves come near.
test.each(strokeKinds)(
  "%s, thousands of unseen windows: solid at most where the shape is a pulse's",
  (kind) => {
    const rows = gradeNoise(25, [25, 50, 100, 125], [kind], 20261125);
    const solid = rows.reduce((sum, { counts }) => sum + counts.solid, 0);
    const most = { "strokes, half waves": 3, "strokes, any shape": 10 } as Readonly<Record<string, number>>;
    expect(solid).toBeLessThanOrEqual(most[kind] ?? 0);
  },
);

test("movement is unreadable or shaky, hardly ever none", () => {
  for (const kind of ["movement", "movement bursts", "rubbing"] as const) {
    const rows = gradeNoise(8, [25, 100, 250], [kind]);
    const none = rows.reduce((sum, { counts }) => sum + counts.none, 0);
    expect(none / (8 * 3 * 12)).toBeLessThan(0.1);
  }
});

test("limits chosen without a person hold for that person", () => {
  const report = gradeLeftOut(recordings);
  expect([report.good, report.bad, report.doubtful]).toEqual([370, 26, 86]);
  expect(report.goodSolid).toBeGreaterThanOrEqual(359);
  expect(report.badSolid).toBe(0);
  expect(report.doubtfulSolid).toBeLessThan(35);
});

describe("a pulse that goes away under the probe", () => {
  const rate = 100;
  const random = createRandom(3);
  const shape = cleanShapes[0]!;
  const pulses = makeCleanPulses(
    {
      shape,
      seconds: 60,
      rate,
      perMinute: 75,
      scatter: 0.02,
      size: 1000,
      noise: 0.01,
      offset: 0,
      wander: 0.1,
    },
    random,
  );
  const rest = makeCleanPulses(
    { shape, seconds: 60, rate, perMinute: 75, scatter: 0.02, size: 10, noise: 1, offset: 0, wander: 0 },
    random,
  );
  const cut = pulses.map((x, n) => (n >= 22 * rate && n < 41 * rate ? rest[n]! : x));
  const { windows } = listenTo(cut, rate);
  const lostIn = windows.filter(({ reasons }) => reasons.some(({ code }) => code === "pulse-lost"));

  test("is among the first two reasons of each window it is missing in, and none of those is solid", () => {
    for (const from of [20, 25, 30, 35]) {
      const { capture, reasons } = windows.find((window) => window.from === from)!;
      expect(reasons.slice(0, 2).map(({ code }) => code)).toContain("pulse-lost");
      expect(capture).not.toBe("solid");
    }
    expect(lostIn.every(({ from }) => from >= 20 && from <= 40)).toBe(true);
  });

  test("leaves the windows before and after solid", () => {
    for (const from of [0, 5, 10, 15, 45, 50])
      expect(windows.find((window) => window.from === from)!.capture).toBe("solid");
  });
});
