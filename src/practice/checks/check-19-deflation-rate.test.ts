import { expect, test } from "vitest";
import { returnErrors } from "../testing/cuff-cycle.js";
import { meanAndSpread } from "../testing/limb-beats.js";

// Zheng et al., Ann Biomed Eng 2011, 10.1007/s10439-011-0347-9: direction only.
test("check 19, prediction: the faster the cuff is let down the more the return scatters", () => {
  const [slow, middle, fast] = [2, 4, 8].map(
    (rate) => meanAndSpread(returnErrors({ rate, heart: { rate: 75 }, repeats: 8 })).sd,
  ) as [number, number, number];
  expect(middle).toBeGreaterThan(slow);
  expect(fast).toBeGreaterThan(middle);
});
