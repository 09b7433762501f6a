import { expect, test } from "vitest";
import { medianOf } from "../testing/limb-beats.js";
import { settledBeats } from "../testing/settled.js";

// Hickey, Phillips and Kyriacou, J Clin Monit Comput 2016;30:727 and companion.
test("check 7, fitted: a hand 50 cm up gains 30 to 100 % of pulse (+70 published), 50 cm down it loses 45 to 80 % (−68) and 10 to 25 % of light (−19)", () => {
  const level = settledBeats();
  const up = settledBeats({ site: { height: 50 } });
  const down = settledBeats({ site: { height: -50 } });
  const pulse = medianOf(level, "perfusionIndex");
  expect(medianOf(up, "perfusionIndex") / pulse).toBeGreaterThan(1.3);
  expect(medianOf(up, "perfusionIndex") / pulse).toBeLessThan(2);
  expect(medianOf(down, "perfusionIndex") / pulse).toBeGreaterThan(0.2);
  expect(medianOf(down, "perfusionIndex") / pulse).toBeLessThan(0.55);
  expect(medianOf(down, "light") / medianOf(level, "light")).toBeGreaterThan(0.75);
  expect(medianOf(down, "light") / medianOf(level, "light")).toBeLessThan(0.9);
});
