import { expect, test } from "vitest";
import { between, limbBeats, meanAndSpread } from "../testing/limb-beats.js";
import { runLimb } from "../testing/limb-run.js";

// Allen and Murray, IEE Proc Sci Meas Technol 2000;147:403: beat-to-beat spread of amplitude, 11 % thumb, 14 % toe.
test.each(["thumb", "toe"] as const)(
  "check 3, fitted: amplitude varies by 7 to 16 percent from beat to beat at the %s",
  (place) => {
    const beats = between(limbBeats(runLimb({ place, seconds: 220, seed: 5 })), 20, 220);
    const { mean, sd } = meanAndSpread(beats.map((beat) => beat.perfusionIndex));
    expect(sd / mean).toBeGreaterThan(0.07);
    expect(sd / mean).toBeLessThan(0.16);
  },
);
