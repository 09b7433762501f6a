import { expect, test } from "vitest";
import { between, limbBeats, medianOf } from "../testing/limb-beats.js";
import { runLimb } from "../testing/limb-run.js";

// A deficit above 10 /min is common in fast fibrillation: textbook figure, working default for the bounds.
test("check 23, fitted: in fibrillation at 120 /min, 5 to 25 beats a minute hardly reach the finger", () => {
  const run = runLimb({ seconds: 200, seed: 3, heart: { rhythm: "fibrillation", rate: 120 } });
  const beats = between(limbBeats(run), 20, 199);
  const weak = beats.filter((beat) => beat.perfusionIndex < 0.25 * medianOf(beats, "perfusionIndex"));
  const perMinute = (60 * weak.length) / 179;
  expect(perMinute).toBeGreaterThan(5);
  expect(perMinute).toBeLessThan(25);
});
