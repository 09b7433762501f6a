import { describe, expect, test } from "vitest";
import { millis } from "../model/index.js";
import { compareSides } from "./compare.js";
import { nothingDeclared, nothingKnown, type SideContext } from "./declared.js";
import {
  displayTrace,
  left,
  makeReading,
  type Recipe,
  rawLight,
  right,
  undisturbed,
} from "./testing/make-reading.js";
import { latenessWords } from "./words.js";

const asked: SideContext = {
  oneClock: true,
  mechanism: "fracture",
  sameDigit: true,
  sameHeight: true,
  sameProbe: true,
  soundHurt: false,
};
const calm: Partial<Recipe> = { site: null, declared: undisturbed };

function compare(suspect: Partial<Recipe>, context: Partial<SideContext> = {}, sound: Partial<Recipe> = {}) {
  return compareSides(
    makeReading({ ...calm, seed: 11, ...sound }),
    makeReading({ ...calm, seed: 12, ...suspect }),
    { ...asked, ...context },
  );
}

describe("one probe named as two sides", () => {
  const red = { ...rawLight, colour: "red" as const };

  test("two probes with like light may be told apart by nothing, and are believed to be two", () => {
    expect(compare({}).verdict).toBe("no-difference");
  });

  test.each([
    ["its red light beside its infrared", red],
    ["its display trace beside its light", displayTrace],
  ])("%s never gives no-difference", (_, channel) => {
    const { verdict, reasons } = compare({ channel });
    expect(verdict).toBe("cannot-tell");
    expect(reasons[0]?.words).toContain("one and the same probe");
  });

  test("named sites say that there are two", () => {
    expect(compare({ channel: red, site: left }, {}, { site: right }).verdict).toBe("no-difference");
  });

  test("two recordings cannot come from one probe at one time", () => {
    const { couldBeWrong } = compare({ channel: red }, { oneClock: false });
    expect(couldBeWrong.join()).not.toContain("one and the same probe");
  });
});

describe("one recording named twice", () => {
  test.each([true, false])("is no comparison, on one clock %s", (oneClock) => {
    const { verdict, reasons } = compare({ seed: 11 }, { oneClock });
    expect([verdict, reasons[0]?.code]).toEqual(["cannot-tell", "same-beats"]);
    expect(reasons[0]?.words).toContain("named twice");
  });

  test("two sites of one heart are two recordings", () => {
    expect(compare({}).reasons.map((one) => one.code)).not.toContain("same-beats");
  });
});

describe("what was not stated", () => {
  // A verdict of cannot-tell carries every doubt.
  const silent = { declared: nothingDeclared, grades: ["shaky", "shaky"] as const };

  test("is one short list, while every doubt keeps its own clause", () => {
    const { notStated, couldBeWrong, disturbedBy } = compare(silent, nothingKnown, silent);
    expect(notStated).toEqual([
      "cuff or tourniquet",
      "cold",
      "nerve block",
      "varnish, dirt or dressing (suspect side)",
      "height of both sites",
      "same digit",
      "same kind of probe",
      "harm to the sound side",
    ]);
    expect(disturbedBy).toEqual([
      "the two sides were not recorded together, and a pulse changes within minutes",
    ]);
    expect(couldBeWrong.filter((words) => words.includes("not stated"))).toHaveLength(11);
  });

  test("names the side where the other one's was stated", () => {
    const { notStated } = compare({ declared: { ...undisturbed, cold: null } }, { sameDigit: null });
    expect(notStated).not.toContain("cold");
    const known = compare(silent, {}, {}).notStated;
    expect(known).toContain("cuff or tourniquet (suspect side)");
  });
});

describe("lateness in words", () => {
  test.each([
    { value: 56.4, low: 53, high: 60, words: "56 ms (53 to 60) after" },
    { value: -67, low: -71.2, high: -62.6, words: "67 ms (63 to 71) before" },
    { value: 3, low: -2, high: 8, words: "between 2 ms before and 8 ms after" },
    { value: -1.4, low: -2.4, high: -0.6, words: "1 ms (1 to 2) before" },
  ])("$words", ({ value, low, high, words }) => {
    const said = latenessWords({ value: millis(value), low: millis(low), high: millis(high), count: 20 });
    expect(said).toBe(words);
    expect(said).not.toContain("-");
  });
});
