import { expect, test } from "vitest";
import { exp } from "../numbers/exponential.js";
import { firstLost, restBefore } from "../testing/loss-threshold.js";

// Severinghaus and Spellman, Anesthesiology 1990;73:532: clamp on the brachial artery, n = 84, and with a vasoconstrictor.
test.each([
  { tone: 0, published: 37.3, sd: 9.8 },
  { tone: 1, published: 58.3, sd: 21 },
])(
  "check 11, fitted: clamped at tone $tone, pulse is lost at a systolic of $published ± $sd mmHg beyond the clamp",
  ({ tone, published, sd }) => {
    const lost = firstLost({
      seconds: 200,
      site: { tone },
      turn: (time, site) => {
        site.narrowing = time < restBefore ? 0 : 1 - exp(-(time - restBefore) / 30);
      },
    });
    expect(Math.abs(lost.distal - published)).toBeLessThan(sd);
  },
);
