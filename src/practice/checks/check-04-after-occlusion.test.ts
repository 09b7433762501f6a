import { expect, test } from "vitest";
import { between, limbBeats, meanAndSpread } from "../testing/limb-beats.js";
import { evenHeart, runLimb } from "../testing/limb-run.js";

// Selvaraj, J Clin Monit Comput 2009;23:315, 11 people: 1.28 ± 0.11 times, greatest in minute 2; +11 ms in minute 1.
test("check 4, fitted: after 5 min of occlusion amplitude is greatest in minute 2, 1.2 to 1.6 times; the pulse comes 5 to 20 ms later in minute 1", () => {
  const release = 340;
  const run = runLimb({
    seconds: release + 300,
    heart: evenHeart,
    quietTone: true,
    turn: (time, site) => {
      site.cuff = time < 40 || time >= release ? 0 : 200;
    },
  });
  const beats = limbBeats(run);
  const mean = (from: number, to: number, reading: "perfusionIndex" | "foot") =>
    meanAndSpread(between(beats, from, to).map((beat) => beat[reading])).mean;
  const rest = mean(20, 39, "perfusionIndex");
  const minutes = [0, 1, 2, 3, 4].map(
    (n) => mean(release + 60 * n, release + 60 * (n + 1), "perfusionIndex") / rest,
  );
  expect(Math.max(...minutes)).toBe(minutes[1]);
  expect(minutes[1]).toBeGreaterThan(1.2);
  expect(minutes[1]).toBeLessThan(1.6);
  const later = 1000 * (mean(release, release + 60, "foot") - mean(20, 39, "foot"));
  expect(later).toBeGreaterThan(5);
  expect(later).toBeLessThan(20);
});
