import { expect, test } from "vitest";
import { between, limbBeats, medianOf } from "../testing/limb-beats.js";
import { evenHeart, runLimb } from "../testing/limb-run.js";

// Imms, Lee and Ludlow 1988, Q J Exp Physiol: forearm flow after 5 min of occlusion.
test("check 5, fitted: excess flow through muscle halves in 14 to 45 s after release", () => {
  const release = 340;
  const run = runLimb({
    seconds: release + 120,
    heart: evenHeart,
    quietTone: true,
    turn: (time, site) => {
      site.cuff = time < 40 || time >= release ? 0 : 200;
    },
  });
  const beats = limbBeats(run);
  const rest = medianOf(between(beats, 20, 39), "muscle");
  const after = between(beats, release + 1, release + 120);
  const start = (after[0]?.muscle ?? 0) - rest;
  const half = after.find((beat) => beat.muscle - rest < start / 2);
  expect(start).toBeGreaterThan(rest);
  const seconds = (half?.r ?? Number.NaN) - (after[0]?.r ?? 0);
  expect(seconds).toBeGreaterThan(14);
  expect(seconds).toBeLessThan(45);
});
