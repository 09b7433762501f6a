import { expect, test } from "vitest";
import { medianOf } from "../testing/limb-beats.js";
import { settledBeats } from "../testing/settled.js";

// Profunda study as read for the practice limb: at most 3 mmHg mean at rest up to 75 % stenosis (measure not stated).
test("check 16, prediction: 75 % of the area lost costs at most 4 mmHg of mean pressure at rest", () => {
  const open = medianOf(settledBeats(), "gradient");
  const lost = medianOf(settledBeats({ site: { narrowing: 0.75 } }), "gradient") - open;
  expect(lost).toBeGreaterThan(0);
  expect(lost).toBeLessThan(4);
});
