/** Real finger and ear of one person at once (`data/`, PhysioKit sample, MIT): the only open recording of two sites. */
import { expect, test } from "vitest";
import { seconds } from "../model/index.js";
import { median } from "./beat-median.js";
import { compareSides } from "./compare.js";
import { nothingDeclared, nothingKnown } from "./declared.js";
import { createSiteListener } from "./site-listener.js";
import { channelNamed, rows } from "./testing/finger-and-ear.js";

function listen(column: number, name: string) {
  const channel = channelNamed(name);
  const listener = createSiteListener({ channel, site: null, keep: 400 });
  listener.push(Float64Array.from(rows, (row) => row[column]!));
  listener.end();
  return listener;
}

const finger = listen(0, "PPG Finger");
const ear = listen(1, "PPG Ear");

function compareAt(from: number, sameDigit: boolean | null) {
  const stretch = {
    from: seconds(from),
    to: seconds(from + 20),
    saturation: null,
    declared: nothingDeclared,
  };
  return compareSides(
    ear.reading({ ...stretch, reference: null }),
    finger.reading({ ...stretch, reference: { kind: "other-side", beats: ear.feet() } }),
    { ...nothingKnown, oneClock: true, sameDigit },
  );
}

const starts = [0, 20, 40, 60, 80, 100, 120, 140, 160, 180, 200, 220, 240, 260];

// Allen and Murray 2000: foot after the R wave, ear 133 ms, thumb 199 ms; 30 healthy people, so 66 ms on average.
test("the finger's foot comes after the ear's by about what is published", () => {
  const delays = starts.flatMap((from) => compareAt(from, null).delay?.value ?? []);
  expect(delays.length).toBeGreaterThanOrEqual(8);
  expect(Math.abs(median(delays) - 66)).toBeLessThan(20);
});

test("stated to be different places, they are never judged by size or timing", () => {
  for (const from of starts) {
    const { verdict, piRatio } = compareAt(from, false);
    expect([verdict, piRatio]).toEqual(["cannot-tell", null]);
  }
});

test("places not stated: the delay is told, with low confidence, and no-difference never", () => {
  const verdicts = starts.map((from) => compareAt(from, null));
  expect(verdicts.filter(({ verdict }) => verdict === "later").length).toBeGreaterThanOrEqual(8);
  for (const { verdict, confidence } of verdicts) {
    expect(verdict).not.toBe("no-difference");
    expect(confidence).toBe("low");
  }
});
