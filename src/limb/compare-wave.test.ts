/** Two waves held against each other: size, delay and shape. */
import { describe, expect, test } from "vitest";
import { seconds } from "../model/index.js";
import { compare, firstCode, silent, toes } from "./testing/compare-recipes.js";
import { displayTrace, found, rawLight, undisturbed } from "./testing/make-reading.js";

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
