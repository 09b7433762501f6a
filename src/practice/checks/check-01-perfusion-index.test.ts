import { expect, test } from "vitest";
import { exp, log } from "../numbers/exponential.js";
import { createRandom } from "../numbers/random.js";
import { median, medianOf } from "../testing/limb-beats.js";
import { settledBeats } from "../testing/settled.js";
import { usualPerson } from "../vessels/index.js";

// Lima, Beelen and Bakker, Crit Care Med 2002;30(6): median 1.4 %, read; range 0.3 to 10, from memory.
test("check 1, fitted: perfusion index of 150 people has median 1.0 to 1.8 %, 90 % within 0.3 to 10 %, log-symmetric", () => {
  const random = createRandom(11);
  const draws = Array.from({ length: 150 }, () => {
    const person = { gain: usualPerson.gain * exp(0.45 * random.normal()) };
    const tone = Math.min(2.5, Math.max(-1.5, 0.75 * random.normal()));
    return medianOf(settledBeats({ person, site: { tone } }, 12, 6), "perfusionIndex");
  });
  expect(median(draws)).toBeGreaterThan(1.0);
  expect(median(draws)).toBeLessThan(1.8);
  expect(draws.filter((pi) => pi > 0.3 && pi < 10).length).toBeGreaterThanOrEqual(135);
  const logs = draws.map(log);
  const mean = logs.reduce((a, b) => a + b) / logs.length;
  const moment = (n: number) => logs.reduce((sum, x) => sum + (x - mean) ** n, 0) / logs.length;
  // Five standard errors of the skewness of 150 normals.
  expect(Math.abs(moment(3) / moment(2) ** 1.5)).toBeLessThan(5 * Math.sqrt(6 / 150));
});
