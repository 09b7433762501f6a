import { expect, test } from "vitest";
import { medianOf } from "../testing/limb-beats.js";
import { settledBeats } from "../testing/settled.js";

// Impedance study 1977;48:231: below 1 at 10 °C to above 27 ml/100 ml/min at 46 °C.
test("check 22, fitted: flow through the digit from the coldest to the hottest rises at least 20 times", () => {
  const cold = medianOf(settledBeats({ site: { tone: 2.5 } }), "flow");
  const hot = medianOf(settledBeats({ site: { tone: -1.5 } }), "flow");
  expect(cold).toBeGreaterThan(0);
  expect(hot / cold).toBeGreaterThan(20);
});
