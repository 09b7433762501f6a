/** What a verdict carries with it: sides, marks, warnings, doubts, and the limb as its own reference. */
import { describe, expect, test } from "vitest";
import { compartmentWarning } from "./cannot-see.js";
import { compareSides } from "./compare.js";
import { nothingKnown } from "./declared.js";
import { asked, compare, firstCode, silent, soundRecipe, suspectRecipe } from "./testing/compare-recipes.js";
import {
  displayTrace,
  left,
  makeReading,
  notFound,
  type Recipe,
  right,
  undisturbed,
} from "./testing/make-reading.js";

describe("no-difference", () => {
  test("at best moderate, with what it cannot see in the sentence itself", () => {
    const comparison = compare();
    expect([comparison.verdict, comparison.confidence]).toEqual(["no-difference", "moderate"]);
    expect(comparison.sentence).toMatch(
      /^No side difference found in size and timing between the left middle finger and the right\. This cannot see /,
    );
    for (const unseen of comparison.cannotSee) expect(comparison.sentence).toContain(unseen);
  });

  test.each([
    ["heights differ", { declared: { ...undisturbed, height: "below" } }, {}, {}],
    ["the suspect side has a nerve block", { declared: { ...undisturbed, block: true } }, {}, {}],
    ["the sound side is cold", {}, { declared: { ...undisturbed, cold: true } }, {}],
    ["a tourniquet is on", { declared: { ...undisturbed, cuff: true } }, {}, {}],
    ["the sound side is hurt too", {}, {}, { soundHurt: true }],
    ["the probes differ", {}, {}, { sameProbe: false }],
    ["another finger is compared", { site: { side: "left", digit: "ring finger" } }, {}, {}],
    ["finger and toe are compared", { site: { side: "left", digit: "great toe" } }, {}, {}],
    ["one digit is compared with itself", { site: right }, {}, {}],
    ["rates differ", { rate: 90 }, {}, {}],
    ["the sound side is shaky", {}, { grades: ["solid", "shaky"] }, {}],
    ["the suspect side is shaky", { grades: ["solid", "shaky"] }, {}, {}],
    ["too few beats for a spread", { grades: ["solid"], rate: 40 }, {}, {}],
    ["SpO2 is low on the suspect side alone", { spo2: 95 }, { spo2: 98 }, {}],
    [
      "nothing but rhythm could be compared",
      { channel: displayTrace },
      { channel: displayTrace },
      { oneClock: false },
    ],
  ] as const)("not when %s", (_, suspect, sound, context) => {
    expect(compare(suspect as Partial<Recipe>, sound as Partial<Recipe>, context).verdict).toBe(
      "cannot-tell",
    );
  });

  test("with sites not named it is given with low confidence, and says what was taken for granted", () => {
    const comparison = compare({ site: null }, { site: null });
    expect([comparison.verdict, comparison.confidence]).toEqual(["no-difference", "low"]);
    expect(comparison.reasons.map((one) => one.code)).toContain("place-unknown");
    expect(comparison.couldBeWrong.join()).toContain("same digit of each side is not stated");
  });

  test("is worth little when nobody stated the conditions", () => {
    const plain = { declared: { ...undisturbed, cold: null, block: null } };
    expect(compare(plain).confidence).toBe("low");
    expect(
      compareSides(makeReading({ site: right }), makeReading({ site: left, seed: 2 }), nothingKnown)
        .confidence,
    ).toBe("low");
  });

  test("S3: on display traces says that size was not compared", () => {
    const comparison = compare({ channel: displayTrace }, { channel: displayTrace });
    expect([comparison.verdict, comparison.confidence, comparison.piRatio]).toEqual([
      "no-difference",
      "low",
      null,
    ]);
    expect(comparison.sentence).toContain("size not compared");
  });
});

describe("S4: sides", () => {
  test("travel with the comparison and its sentence", () => {
    const comparison = compare({ pi: 0.1 });
    expect([comparison.sound, comparison.suspect]).toEqual([right, left]);
    expect(comparison.sentence).toContain("left middle finger is weaker");
  });

  test("swapping sound and suspect turns every signed number and never keeps the old verdict's side", () => {
    const one = makeReading({ ...soundRecipe });
    const other = makeReading({ ...suspectRecipe, pi: 0.15, arrival: 212 });
    const there = compareSides(one, other, asked);
    const back = compareSides(other, one, asked);
    expect(there.piRatio!.value * back.piRatio!.value).toBeCloseTo(1, 9);
    expect(there.delay!.value + back.delay!.value).toBeCloseTo(0, 9);
    expect([there.verdict, back.verdict]).toEqual(["weaker", "cannot-tell"]);
    expect([back.sound, back.suspect]).toEqual([left, right]);
  });

  test("without sites the words are sound side and suspect side", () => {
    const { sentence } = compare({ ...silent, site: null, presence: notFound(0.03) }, { site: null });
    expect(sentence).toBe("No pulse wave at the suspect side; the sound side has one.");
    expect(sentence).not.toMatch(/left|right/);
  });
});

describe("no sound side: the limb's own first reading as the reference", () => {
  const own = (suspect: Partial<Recipe>) => compare(suspect, { site: left }, { oneClock: false });

  test("is named as such, and never gives no-difference", () => {
    const comparison = own({});
    expect([comparison.verdict, firstCode(comparison)]).toEqual(["cannot-tell", "disturbed"]);
    expect(comparison.sentence).toContain("there is no sound side");
  });

  test("still tells absent and weaker", () => {
    expect(own({ ...silent, presence: notFound(0.03) }).sentence).toBe(
      "No pulse wave at the left middle finger; its own first reading has one.",
    );
    expect(own({ pi: 0.2 }).sentence).toMatch(/weaker: 0\.\d+ of the size in its own first reading\.$/);
  });
});

describe("S6: a cuff", () => {
  test.each([{}, { pi: 0.1 }, { ...silent, presence: notFound(0.03) }] as const)(
    "marks whatever is said under it",
    (suspect) => {
      const comparison = compare({
        ...(suspect as Partial<Recipe>),
        declared: { ...undisturbed, cuff: true },
      });
      expect(comparison.marks).toEqual(["under a cuff or tourniquet on the suspect side"]);
      expect(comparison.sentence).toMatch(/^Under a cuff or tourniquet on the suspect side: /);
      expect(comparison.confidence).toBe("low");
    },
  );

  test("leaves no mark when there is none", () => {
    expect(compare().marks).toEqual([]);
  });
});

describe("S11: where the limb can swell", () => {
  test.each(["fracture", "crush", "burn", "bite", "reperfusion", null] as const)(
    "%s brings the compartment warning first",
    (mechanism) => {
      for (const suspect of [
        {},
        { pi: 0.1 },
        { ...silent, presence: notFound(0.03) },
        { grades: ["off" as const] },
      ]) {
        expect(compare(suspect, {}, { mechanism }).cannotSee[0]).toBe(compartmentWarning);
      }
    },
  );

  test("practice on a volunteer does not, and still says what cannot be seen", () => {
    const { cannotSee } = compare({}, {}, { mechanism: "practice" });
    expect(cannotSee).not.toContain(compartmentWarning);
    expect(cannotSee.length).toBeGreaterThan(0);
  });
});

describe("SpO2 beside the trace", () => {
  // Mars et al. 1994: 6 of 50 differed by 2 %; "> 2 %" is the published criterion.
  test.each([
    [96, null],
    [97, null],
    [95, "spo2-low"],
  ])("98 %% beside %d %% adds the reason %s", (spo2, code) => {
    const comparison = compare({ spo2 }, { spo2: 98 });
    expect(comparison.saturationDifference).toBe(98 - spo2);
    expect(comparison.reasons.map((one) => one.code).find((one) => one.startsWith("spo2")) ?? null).toBe(
      code,
    );
  });

  test("S2: is not compared when one number stands over a dead trace", () => {
    expect(
      compare({ ...silent, spo2: 97, presence: notFound(0.03) }, { spo2: 98 }).saturationDifference,
    ).toBeNull();
  });
});
