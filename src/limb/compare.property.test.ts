import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { captureGrades, type Percent, seconds } from "../model/index.js";
import { canSwell, rules } from "../rules/index.js";
import { forbiddenIn } from "../rules/testing/forbidden-words.js";
import { compartmentWarning } from "./cannot-see.js";
import { compareSides } from "./compare.js";
import { type Comparison, comparisonReasonCodes, verdicts } from "./comparison.js";
import type { SideContext } from "./declared.js";
import type { Reading } from "./reading.js";
import { contexts, pairs } from "./testing/arbitrary-readings.js";
import { makeReading, type Recipe } from "./testing/make-reading.js";

/** One fixed draw for all tests below: what is drawn matters less than that every corner is in it. */
const cases = fc
  .sample(fc.tuple(pairs, contexts), { numRuns: 3000, seed: 2026 })
  .map(([[one, other], context]) => {
    const sound = makeReading(one);
    const suspect = makeReading(other);
    return { one, other, context, sound, suspect, comparison: compareSides(sound, suspect, context) };
  });

function always(
  property: (comparison: Comparison, sound: Reading, suspect: Reading, context: SideContext) => void,
) {
  for (const { comparison, sound, suspect, context } of cases) property(comparison, sound, suspect, context);
}

/** Everything of a comparison a person may read. */
function said(comparison: Comparison): string[] {
  return [
    comparison.sentence,
    comparison.verdict,
    comparison.confidence,
    ...comparison.reasons.map((one) => one.words),
    ...comparison.couldBeWrong,
    ...comparison.cannotSee,
    ...comparison.marks,
  ];
}

const bothSolid = (sound: Reading, suspect: Reading) =>
  sound.capture === "solid" && suspect.capture === "solid";
const known = (reading: Reading) => reading.channel.kind === "raw-light";
const ratioCodes = new Set(["ratio-below", "ratio-within", "ratio-doubtful", "ratio-above"]);
const delayCodes = new Set([
  "delay-beyond",
  "delay-within",
  "delay-doubtful",
  "delay-negative",
  "shapes-disagree",
]);

describe("any two readings", () => {
  test("reach every verdict and every reason, so that nothing below holds for want of cases", () => {
    const seen = new Set<string>();
    always((comparison) => {
      seen.add(comparison.verdict);
      for (const one of comparison.reasons) seen.add(one.code);
    });
    const expected: string[] = [...verdicts, ...comparisonReasonCodes];
    // Sides and shapes do not vary in these random pairs; tests of their own cover these two.
    expect(expected.filter((one) => !seen.has(one))).toEqual(["same-site", "shapes-disagree"]);
  });

  test("S1, S5: no sentence, reason or caveat holds a forbidden word", () => {
    always((comparison) => {
      for (const text of said(comparison)) expect(forbiddenIn(text), text).toEqual([]);
    });
  });

  test("S1: no-difference always goes with what it cannot see", () => {
    always((comparison) => {
      expect(comparison.cannotSee.length).toBeGreaterThan(0);
      if (comparison.verdict !== "no-difference") return;
      expect(comparison.sentence.toLowerCase()).toContain("no side difference found");
      for (const unseen of comparison.cannotSee) expect(comparison.sentence).toContain(unseen);
    });
  });

  test("S2: no-difference only with both sides solid and their rates agreeing", () => {
    always((comparison, sound, suspect) => {
      if (comparison.verdict !== "no-difference") return;
      expect(bothSolid(sound, suspect)).toBe(true);
      expect(comparison.reasons.map((one) => one.code)).toContain("rates-agree");
      expect(comparison.confidence).not.toBe("high");
    });
  });

  test("no-difference only with size or timing compared and its whole interval inside the limits", () => {
    always((comparison, sound, suspect, context) => {
      if (comparison.verdict !== "no-difference") return;
      expect(comparison.piRatio !== null || comparison.delay !== null).toBe(true);
      if (comparison.piRatio !== null) {
        expect(comparison.piRatio.value).toBeGreaterThanOrEqual(0.5);
        expect(comparison.piRatio.value).toBeLessThanOrEqual(2);
      }
      if (comparison.delay !== null) {
        expect(comparison.delay.high).toBeLessThanOrEqual(20);
        expect(comparison.delay.low).toBeGreaterThanOrEqual(-20);
      }
      for (const reading of [sound, suspect]) {
        expect([reading.declared.cuff, reading.declared.pump]).not.toContain(true);
      }
      expect(suspect.declared.block).not.toBe(true);
      expect(context.soundHurt).not.toBe(true);
    });
  });

  test("S2, S3: a ratio only from two solid captures of raw light of one colour", () => {
    always((comparison, sound, suspect) => {
      const may =
        bothSolid(sound, suspect) &&
        known(sound) &&
        known(suspect) &&
        sound.channel.colour === suspect.channel.colour;
      const numbers = [
        comparison.piRatio?.value ?? null,
        ...comparison.reasons.filter((one) => ratioCodes.has(one.code)).map((one) => one.value),
      ];
      if (!may) expect(numbers.filter((one) => one !== null)).toEqual([]);
    });
  });

  test("S2: delay, rates and shape only from two solid captures; delay never across heights", () => {
    always((comparison, sound, suspect) => {
      const heights = [sound.declared.height, suspect.declared.height];
      if (heights[0] !== null && heights[1] !== null && heights[0] !== heights[1])
        expect(comparison.delay).toBeNull();
      if (bothSolid(sound, suspect)) return;
      expect([
        comparison.delay,
        comparison.delayByShape,
        comparison.rateDifference,
        comparison.shapeDistance,
      ]).toEqual([null, null, null, null]);
      expect(comparison.saturationDifference).toBeNull();
      expect(comparison.reasons.filter((one) => delayCodes.has(one.code))).toEqual([]);
    });
  });

  test("S4: sites are those handed over, and a side is named only if it was given", () => {
    always((comparison, sound, suspect) => {
      expect([comparison.sound, comparison.suspect]).toEqual([sound.site, suspect.site]);
      const text = said(comparison).join(" ");
      for (const side of ["left", "right"] as const) {
        if (![sound.site?.side, suspect.site?.side].includes(side))
          expect(text).not.toMatch(new RegExp(`\\b${side}\\b`));
      }
    });
  });

  test("S5: absent only under a working probe, with a reference that found nothing, and off a pump", () => {
    always((comparison, sound, suspect) => {
      if (sound.declared.pump === true || suspect.declared.pump === true)
        expect(comparison.verdict).toBe("cannot-tell");
      if (comparison.verdict !== "absent") return;
      expect([sound.capture, suspect.capture]).toEqual(["solid", "none"]);
      expect([suspect.presence?.answer, suspect.presence?.reference]).toEqual(["not-found", true]);
    });
  });

  test("S6: a declared cuff is said first", () => {
    always((comparison, sound, suspect) => {
      const cuff = sound.declared.cuff === true || suspect.declared.cuff === true;
      expect(/^Under a cuff/.test(comparison.sentence)).toBe(cuff);
    });
  });

  test("S9: every threshold in a reason is a row, with value, unit, source and support", () => {
    always((comparison) => {
      for (const { rule, unit } of comparison.reasons) {
        if (rule === null) continue;
        expect(rules).toContain(rule);
        expect(rule.source.length).toBeGreaterThan(0);
        expect(rule.unit).toBe(unit);
      }
    });
  });

  test("S11: the compartment warning is there whenever the limb can swell or nobody said how it was hurt", () => {
    always((comparison, _sound, _suspect, context) => {
      expect(comparison.cannotSee.includes(compartmentWarning)).toBe(canSwell(context.mechanism));
    });
  });

  test("a comparison repeated is the same comparison", () => {
    always((comparison, sound, suspect, context) => {
      expect(compareSides(sound, suspect, context)).toEqual(comparison);
    });
  });
});

describe("damage to the suspect side never moves the verdict towards no-difference", () => {
  const never = (
    name: string,
    damages: fc.Arbitrary<(recipe: Recipe) => Recipe>,
    applies: (before: Comparison) => boolean = () => true,
  ) =>
    test(name, () => {
      const drawn = fc.sample(damages, { numRuns: cases.length, seed: 7 });
      let spoiled = 0;
      cases.forEach(({ other, sound, context, comparison: before }, i) => {
        if (!applies(before)) return;
        const after = compareSides(sound, makeReading(drawn[i]!(other)), context);
        if (before.verdict === "no-difference") spoiled += after.verdict === "no-difference" ? 0 : 1;
        else expect(after.verdict, JSON.stringify(other)).not.toBe("no-difference");
      });
      expect(spoiled).toBeGreaterThan(0);
    });

  never(
    "a window that is no longer solid",
    fc.tuple(fc.nat(), fc.constantFrom(...captureGrades)).map(([at, grade]) => (recipe: Recipe) => ({
      ...recipe,
      grades: recipe.grades.map((old, i) =>
        i === at % Math.max(1, recipe.grades.length) && old === "solid" ? grade : old,
      ),
    })),
  );
  never(
    "beats lost",
    fc.constant((recipe: Recipe) => ({ ...recipe, beats: false })),
  );
  never(
    "pulses made smaller, from no larger than the sound side's",
    fc
      .double({ min: 0.01, max: 1, noNaN: true })
      .map((share) => (recipe: Recipe) => ({ ...recipe, pi: share * recipe.pi })),
    (before) => before.piRatio !== null && before.piRatio.value <= 1,
  );
  never(
    "pulses made later, from no earlier than the sound side's",
    fc
      .double({ min: 0, max: 80, noNaN: true })
      .map((ms) => (recipe: Recipe) => ({ ...recipe, arrival: recipe.arrival + ms })),
    (before) => before.delay !== null && before.delay.value >= 0,
  );
  never(
    "a nerve block",
    fc.constant((recipe: Recipe) => ({ ...recipe, declared: { ...recipe.declared, block: true } })),
  );
  never(
    "a tourniquet",
    fc.constant((recipe: Recipe) => ({ ...recipe, declared: { ...recipe.declared, cuff: true } })),
  );
});

test("S2: an SpO2 number over a dead suspect trace never enters the comparison", () => {
  for (const { one, other, context } of cases.slice(0, 500)) {
    const dead = makeReading({ ...other, grades: ["none", "none"], spo2: 97 });
    const comparison = compareSides(makeReading({ ...one, spo2: 98 }), dead, context);
    expect(dead.saturation).toEqual({
      value: 97 as Percent,
      at: seconds(9),
      age: seconds(1),
      fault: "held-over-dead-trace",
    });
    expect(comparison.saturationDifference).toBeNull();
    expect(comparison.reasons.some((reason) => reason.code.startsWith("spo2"))).toBe(false);
  }
});
