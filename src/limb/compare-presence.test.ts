/** A wave that is not there, or not to be seen: what is said, and what is not concluded from it. */
import { describe, expect, test } from "vitest";
import { ruleOf } from "../rules/index.js";
import { compare, firstCode, silent } from "./testing/compare-recipes.js";
import {
  displayTrace,
  likely,
  notFound,
  type Recipe,
  undisturbed,
  unreferenced,
} from "./testing/make-reading.js";

describe("absent", () => {
  test("needs a working probe, a reference that finds nothing, and too little noise for a wave to hide", () => {
    const { verdict, confidence, sentence } = compare({ ...silent, presence: notFound(0.03) });
    expect([verdict, confidence]).toEqual(["absent", "high"]);
    expect(sentence).toBe("No pulse wave at the left middle finger; the right has one.");
  });

  test("is not claimed where a wave of a fifth of the sound side could hide", () => {
    const comparison = compare({ ...silent, presence: notFound(0.5) });
    expect([comparison.verdict, firstCode(comparison)]).toEqual(["cannot-tell", "wave-may-hide"]);
    expect(comparison.reasons[0]?.rule).toBe(ruleOf("absent.hidden-share"));
  });

  test("S3: on a display trace stays low, since what could hide has no size", () => {
    const comparison = compare(
      { ...silent, channel: displayTrace, presence: notFound(null) },
      { channel: displayTrace },
    );
    expect([comparison.verdict, comparison.confidence]).toEqual(["absent", "low"]);
    expect(comparison.reasons.map((one) => one.code)).toContain("hidden-size-unknown");
  });

  test("is worth little when some window looked like pulses until the reference denied them", () => {
    const comparison = compare({ grades: ["none", "shaky", "none"], beats: false, presence: notFound(0.03) });
    expect([comparison.verdict, comparison.confidence]).toEqual(["absent", "low"]);
  });

  test("is worth less when the side is cold, and less when nobody asked", () => {
    const cold = compare({ ...silent, presence: notFound(0.03), declared: { ...undisturbed, cold: true } });
    expect([cold.verdict, cold.confidence]).toEqual(["absent", "low"]);
    expect(cold.couldBeWrong.join()).toContain("cold");
    const unasked = compare({
      ...silent,
      presence: notFound(0.03),
      declared: { ...undisturbed, cold: null },
    });
    expect([unasked.verdict, unasked.confidence]).toEqual(["absent", "moderate"]);
  });
});

describe("S5: loss of signal is not loss of pulse", () => {
  test.each([
    [
      "a working probe and no wave",
      { ...silent, presence: notFound(0.03) },
      "absent",
      "no-wave-working-probe",
    ],
    [
      "no wave seen, nothing to test against",
      { ...silent, presence: null },
      "cannot-tell",
      "no-wave-no-reference",
    ],
    [
      "no wave seen, tested alone",
      { ...silent, presence: unreferenced },
      "cannot-tell",
      "no-wave-no-reference",
    ],
    ["the probe off", { ...silent, grades: ["off"], presence: notFound(0.01) }, "cannot-tell", "probe-off"],
    ["movement", { grades: ["unreadable"], presence: notFound(0.01) }, "cannot-tell", "too-much-movement"],
    ["a shaky capture", { grades: ["shaky"], presence: null }, "cannot-tell", "suspect-shaky"],
    [
      "beats that are not the heart's",
      { grades: ["shaky"], presence: notFound(0.01) },
      "cannot-tell",
      "wave-at-other-beat",
    ],
    [
      "a pulse that went away meanwhile",
      { grades: ["solid", "none"], presence: null },
      "cannot-tell",
      "wave-came-or-went",
    ],
    ["a wave that is only likely", { ...silent, presence: likely }, "cannot-tell", "wave-uncertain"],
  ] as const)("%s has an answer of its own", (_, suspect, verdict, code) => {
    const comparison = compare(suspect as Partial<Recipe>);
    expect([comparison.verdict, firstCode(comparison)]).toEqual([verdict, code]);
  });

  test("each of these answers is a different sentence", () => {
    const sentences = [
      { ...silent, presence: notFound(0.03) },
      { ...silent, presence: null },
      { ...silent, grades: ["off" as const] },
      { grades: ["unreadable" as const] },
      { grades: ["shaky" as const] },
    ].map((suspect) => compare(suspect).sentence);
    expect(new Set(sentences).size).toBe(sentences.length);
  });

  test.each([
    [{ ...silent, presence: notFound(0.03) }, {}],
    [{}, {}],
    [{}, silent],
  ] as const)("on a pump nothing is concluded", (suspect, sound) => {
    for (const pumped of ["sound", "suspect"]) {
      const declared = { declared: { ...undisturbed, pump: true } };
      const comparison =
        pumped === "sound"
          ? compare(suspect as Partial<Recipe>, { ...(sound as Partial<Recipe>), ...declared })
          : compare({ ...(suspect as Partial<Recipe>), ...declared }, sound as Partial<Recipe>);
      expect([comparison.verdict, firstCode(comparison)]).toEqual(["cannot-tell", "pump"]);
    }
  });
});
