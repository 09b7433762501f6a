import { expect, test } from "vitest";
import { firstLost, restBefore } from "../testing/loss-threshold.js";

// Severinghaus and Spellman, Anesthesiology 1990;73:532: raised limb, n = 189, and with a vasoconstrictor.
test.each([
  { tone: 0, published: 25.3, sd: 12.4 },
  { tone: 1, published: 41.0, sd: 13.8 },
])(
  "check 10, fitted: raised at tone $tone, pulse is lost at a systolic of $published ± $sd mmHg in the digit, with hardly any flow",
  ({ tone, published, sd }) => {
    const height = (time: number) => Math.min(100, Math.max(0, time - restBefore));
    const lost = firstLost({
      seconds: 130,
      heart: { systolic: 90, diastolic: 58 },
      site: { tone },
      turn: (time, site) => {
        site.height = height(time);
      },
    });
    const systolic = lost.distal - 0.776 * height(lost.r);
    expect(Math.abs(systolic - published)).toBeLessThan(sd);
    expect(lost.flow).toBeLessThan(0.02);
  },
);
