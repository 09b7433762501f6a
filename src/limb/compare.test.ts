import { describe, expect, test } from "vitest";
import { seconds } from "../model/index.js";
import { ruleOf } from "../rules/index.js";
import { compartmentWarning } from "./cannot-see.js";
import { compareSides } from "./compare.js";
import type { Comparison } from "./comparison.js";
import { nothingKnown, type SideContext } from "./declared.js";
import {
  displayTrace,
  found,
  left,
  likely,
  makeReading,
  notFound,
  type Recipe,
  rawLight,
  right,
  undisturbed,
  unreferenced,
} from "./testing/make-reading.js";

/** Everything asked: one recording, equal heights, like probes, sound side unhurt, a broken bone. */
const asked: SideContext = {
  oneClock: true,
  mechanism: "fracture",
  sameDigit: null,
  sameHeight: true,
  sameProbe: true,
  soundHurt: false,
};

const soundRecipe: Partial<Recipe> = { site: right, declared: undisturbed, seed: 11 };
const suspectRecipe: Partial<Recipe> = { site: left, declared: undisturbed, seed: 12 };

function compare(
  suspect: Partial<Recipe> = {},
  sound: Partial<Recipe> = {},
  context: Partial<SideContext> = {},
): Comparison {
  return compareSides(
    makeReading({ ...soundRecipe, ...sound }),
    makeReading({ ...suspectRecipe, ...suspect }),
    { ...asked, ...context },
  );
}

const silent: Partial<Recipe> = { grades: ["none", "none", "none"], beats: false };
const firstCode = (comparison: Comparison) => comparison.reasons[0]?.code;
const toes: [Partial<Recipe>, Partial<Recipe>] = [
  { site: { side: "left", digit: "great toe" } },
  { site: { side: "right", digit: "great toe" } },
];

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

describe("weaker", () => {
  test("when the whole interval of the beats lies below the limit", () => {
    const comparison = compare({ pi: 0.2 });
    expect([comparison.verdict, comparison.confidence]).toEqual(["weaker", "moderate"]);
    expect(comparison.piRatio!.value).toBeCloseTo(0.1, 1);
    expect(comparison.piRatio!.high).toBeLessThan(1);
    expect(comparison.sentence).toMatch(
      /^The pulse wave at the left middle finger is weaker: 0\.\d+ of the size at the right\.$/,
    );
  });

  test("not when scatter of the beats reaches over it", () => {
    expect(compare({ pi: 0.38, scatter: 0.5 }).verdict).toBe("cannot-tell");
  });

  test("is never more than moderate: there is no published limit", () => {
    expect(compare({ pi: 0.01 }).confidence).toBe("moderate");
    expect(compare({ pi: 0.01 }).reasons[0]?.rule?.support).toBe("working default");
  });

  test("also when only the beat of the heart brings the wave out, with low confidence and no ratio (S2)", () => {
    const comparison = compare({ ...silent, presence: found(0.04) });
    expect([comparison.verdict, comparison.confidence, comparison.piRatio]).toEqual(["weaker", "low", null]);
  });

  test("S3: never on a display trace, whose gain hides it", () => {
    const comparison = compare({ channel: displayTrace, pi: 0.01 }, { channel: displayTrace });
    expect(comparison.piRatio).toBeNull();
    expect(comparison.verdict).not.toBe("weaker");
    expect(
      compare({ ...silent, channel: displayTrace, presence: found(0.04) }, { channel: displayTrace }).verdict,
    ).toBe("cannot-tell");
  });

  test("S3: never between two colours of light", () => {
    const comparison = compare({ channel: { ...rawLight, colour: "red" }, pi: 0.01 });
    expect([comparison.piRatio, comparison.verdict]).toEqual([null, "no-difference"]);
    expect(comparison.confidence).toBe("low");
    expect(comparison.reasons.map((one) => one.code)).toContain("other-colour");
  });
});

describe("size in doubt", () => {
  test.each([
    [0.7, "ratio-doubtful"],
    [5.5, "ratio-above"],
    [14, "ratio-above"],
  ])("PI %d %% beside 2 %% is cannot-tell (%s)", (pi, code) => {
    const comparison = compare({ pi });
    expect([comparison.verdict, firstCode(comparison)]).toEqual(["cannot-tell", code]);
  });
});

describe("later", () => {
  // Jago and Murray 1988: 20 ms fingers. Erts et al. 2005: legs 14 healthy, 23 ± 9 grey, > 32 certain.
  test.each([
    [0, "no-difference"],
    [20, "cannot-tell"],
    [30, "later"],
  ])("a finger %d ms behind is %s", (delay, verdict) => {
    const comparison = compare({ arrival: 200 + delay });
    expect(comparison.verdict).toBe(verdict);
    expect(Math.abs(comparison.delay!.value - delay)).toBeLessThan(8);
  });

  test.each([
    [2, "no-difference"],
    [23, "cannot-tell"],
    [45, "later"],
  ])("a toe %d ms behind is %s", (delay, verdict) => {
    expect(compare({ ...toes[0], arrival: 300 + delay }, { ...toes[1], arrival: 300 }).verdict).toBe(verdict);
  });

  test("says so in one sentence", () => {
    expect(compare({ arrival: 260, jitter: 0 }, { jitter: 0 }).sentence).toBe(
      "The pulse wave at the left middle finger comes 60 ms later than at the right.",
    );
  });

  test("an earlier suspect side is not agreement: the sound side may be the late one", () => {
    const comparison = compare({ arrival: 150 });
    expect([comparison.verdict, firstCode(comparison)]).toEqual(["cannot-tell", "delay-negative"]);
  });

  // Worked value: 40 ms with one leg raised is not reported (Jago and Murray 1988: 49 ms from height alone).
  test("40 ms with one leg raised is not reported", () => {
    const comparison = compare(
      { ...toes[0], arrival: 340, declared: { ...undisturbed, height: "above" } },
      { ...toes[1], arrival: 300 },
    );
    expect([comparison.delay, comparison.verdict]).toEqual([null, "cannot-tell"]);
    expect(comparison.reasons.map((one) => one.code)).toContain("heights-differ");
  });

  test("no delay without one clock, unless each side has its ECG", () => {
    expect(compare({ arrival: 260 }, {}, { oneClock: false }).delay).toBeNull();
    const byEcg = compare({ arrival: 260, ecg: true }, { ecg: true }, { oneClock: false });
    expect(Math.abs(byEcg.delay!.value - 60)).toBeLessThan(10);
    expect([byEcg.verdict, byEcg.confidence]).toEqual(["later", "low"]);
  });
});

describe("both weak", () => {
  test("when PI is low on both sides, instead of calling them alike (scene: both limbs hurt)", () => {
    const comparison = compare({ pi: 0.15 }, { pi: 0.15 });
    expect([comparison.verdict, comparison.confidence]).toEqual(["both-weak", "low"]);
    expect(comparison.sentence).toContain("neither can serve as the sound side");
  });

  test("also from two shaky captures with small waves found", () => {
    const shaky = { grades: ["shaky" as const], presence: found(0.1) };
    expect(compare(shaky, shaky).verdict).toBe("both-weak");
    expect(compare(shaky, { ...shaky, presence: found(1) }).verdict).toBe("cannot-tell");
  });

  test("S3: never on display traces", () => {
    const display = { channel: displayTrace, pi: 0.15 };
    expect(compare(display, display).verdict).toBe("no-difference");
  });
});

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

describe("shape", () => {
  /** A wave whose top comes `top` seconds after the foot. */
  const wave = (top: number) => ({
    from: seconds(-0.1),
    values: Array.from({ length: 81 }, (_, i) => {
      const t = i / 100 - 0.1;
      if (t < 0) return 0;
      return t < top ? Math.sin((Math.PI / 2) * (t / top)) : Math.exp(-(t - top) / 0.25);
    }),
    step: seconds(0.01),
  });

  test("equal shapes have no distance and add nothing to the delay", () => {
    const comparison = compare({ shape: wave(0.15) }, { shape: wave(0.15) });
    expect(comparison.shapeDistance).toBeCloseTo(0, 9);
    expect(comparison.delayByShape).toBeCloseTo(comparison.delay!.value, 9);
  });

  test("a wave turned over is at distance 2", () => {
    const up = wave(0.15);
    const down = { ...up, values: up.values.map((x) => -x) };
    expect(compare({ shape: down }, { shape: up }).shapeDistance).toBeCloseTo(2, 9);
  });

  test("a rounded suspect wave is flagged instead of being called alike", () => {
    const comparison = compare({ shape: wave(0.28) }, { shape: wave(0.15) });
    expect(comparison.shapeDistance!).toBeGreaterThan(0.05);
    expect(comparison.delayByShape! - comparison.delay!.value).toBeGreaterThan(15);
    expect([comparison.verdict, firstCode(comparison)]).toEqual(["cannot-tell", "shapes-disagree"]);
  });

  test("lowers the confidence of later", () => {
    const comparison = compare({ shape: wave(0.28), arrival: 260 }, { shape: wave(0.15) });
    expect([comparison.verdict, comparison.confidence]).toEqual(["later", "low"]);
    expect(compare({ shape: wave(0.15), arrival: 260 }, { shape: wave(0.15) }).confidence).toBe("high");
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
