import { expect, test } from "vitest";
import { firstLost, restBefore } from "../testing/loss-threshold.js";

// Severinghaus and Spellman, Anesthesiology 1990;73:532: 88.8 ± 11.5 % at the threshold, n = 210.
test("check 13, fitted: saturation in the digit is 80 to 96 % when the pulse is lost, raised or under a slow cuff", () => {
  const raised = firstLost({
    seconds: 130,
    heart: { systolic: 90, diastolic: 58 },
    turn: (time, site) => {
      site.height = Math.min(100, Math.max(0, time - restBefore));
    },
  });
  const cuffed = firstLost({
    seconds: 90,
    turn: (time, site) => {
      site.cuff = Math.max(0, (time - restBefore) * 2);
    },
  });
  for (const lost of [raised, cuffed]) {
    expect(lost.saturation).toBeGreaterThan(0.8);
    expect(lost.saturation).toBeLessThan(0.96);
  }
});
