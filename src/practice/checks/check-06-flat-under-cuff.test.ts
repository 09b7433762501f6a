import { expect, test } from "vitest";
import { between, limbBeats } from "../testing/limb-beats.js";
import { runLimb } from "../testing/limb-run.js";

// Skillman, Dutta et al. 2022/23, "The Use of the Pulse Oximeter in Limb Ischemia": arms and legs.
test.each(["finger", "toe"] as const)(
  "check 6, prediction: the %s's trace is flat within 45 s of inflation and stays so",
  (place) => {
    const run = runLimb({
      place,
      seconds: 140,
      quietTone: true,
      turn: (time, site) => {
        site.cuff = time < 20 ? 0 : Math.min(200, (time - 20) * 10);
      },
    });
    const beats = limbBeats(run);
    expect(Math.min(...between(beats, 10, 19).map((beat) => beat.perfusionIndex))).toBeGreaterThan(0.5);
    expect(Math.max(...between(beats, 65, 140).map((beat) => beat.perfusionIndex))).toBeLessThan(0.02);
  },
);
