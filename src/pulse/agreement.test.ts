import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { seconds } from "../model/units.js";
import { agreeWithHeart, pairBeats } from "./agreement.js";

const train = fc.array(fc.double({ min: 0.05, max: 2, noNaN: true }), { maxLength: 40 }).map((steps) =>
  steps.map(
    (
      (at) => (step: number) =>
        (at += step)
    )(0),
  ),
);

describe("pairing two beat trains", () => {
  test.each([
    { ref: [1, 2, 3], test: [1.1, 2.1, 3.1], matched: 3, missed: [], extra: [] },
    { ref: [1, 2, 3], test: [1.16, 3], matched: 1, missed: [0, 1], extra: [0] },
    { ref: [1], test: [0.9, 1.05], matched: 1, missed: [], extra: [0] },
    { ref: [], test: [1], matched: 0, missed: [], extra: [0] },
  ])("$ref with $test within 0.15 s: $matched matched", ({ ref, test: t, matched, missed, extra }) => {
    const pairing = pairBeats(ref, t, seconds(0.15));
    expect(pairing.matched.length).toBe(matched);
    expect(pairing.missed).toEqual(missed);
    expect(pairing.extra).toEqual(extra);
  });

  test("uses each beat once and leaves none unaccounted for", () => {
    fc.assert(
      fc.property(train, train, (ref, other) => {
        const { matched, missed, extra } = pairBeats(ref, other, seconds(0.15));
        expect(new Set(matched.map(([r]) => r)).size).toBe(matched.length);
        expect(new Set(matched.map(([, t]) => t)).size).toBe(matched.length);
        expect(matched.length + missed.length).toBe(ref.length);
        expect(matched.length + extra.length).toBe(other.length);
        for (const [r, t] of matched) expect(Math.abs(ref[r]! - other[t]!)).toBeLessThanOrEqual(0.15);
      }),
    );
  });
});

describe("agreement with the heart", () => {
  const heart = Array.from({ length: 121 }, (_, i) => i * 0.625 + 0.01 * Math.sin(i));

  test("finds the delay although the pulse comes just before the next heart beat", () => {
    const agreement = agreeWithHeart(
      heart,
      heart.map((t) => t + 0.6),
    );
    expect(agreement?.delay).toBeCloseTo(0.6, 3);
    expect(agreement?.matched.length).toBe(121);
    expect(agreement?.deficit).toBe(0);
  });

  // Worked value: heart rate 96, pulse rate 82 per minute leave a deficit of 14 (definition).
  test("counts heart beats without a pulse per minute: 96 against 82 is a deficit of 14", () => {
    const beats = Array.from({ length: 97 }, (_, i) => (i * 60) / 96 + 0.004 * Math.sin(7 * i));
    const dropped = new Set(Array.from({ length: 14 }, (_, i) => 5 + i * 6));
    const pulses = beats.map((t) => t + 0.25).filter((_, i) => !dropped.has(i));
    expect(agreeWithHeart(beats, pulses)?.deficit).toBeCloseTo(14, 1);
  });

  test.each([
    [[], []],
    [heart, [1, 2, 3]],
    [heart, heart.map((t) => t + 0.02).slice(0, 5)],
  ])("says nothing when there is too little or no plausible delay", (h, p) => {
    expect(agreeWithHeart(h.slice(0, 6), p)).toBeNull();
  });
});
