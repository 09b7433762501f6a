import { expect, test } from "vitest";
import { medianOf } from "../testing/limb-beats.js";
import { settledBeats } from "../testing/settled.js";

const heart = { diastolic: 80 };

// Ashton 1975, Clin Orthop 113:15 (perfusion falls, the pulse beyond persists); tolerance of our own.
test("check 17, prediction: in a compartment the pulse keeps 80 % up to 10 mmHg below diastolic while muscle flow falls", () => {
  const open = settledBeats({ heart });
  const tight = settledBeats({ heart, site: { tissue: 70 } });
  expect(medianOf(tight, "perfusionIndex") / medianOf(open, "perfusionIndex")).toBeGreaterThan(0.8);
  expect(medianOf(tight, "muscle") / medianOf(open, "muscle")).toBeLessThan(0.75);
  expect(medianOf(tight, "saturation")).toBeGreaterThan(medianOf(open, "saturation") - 0.01);
});

// Mars et al., S Afr J Surg 1994;32:48: under a bandage saturation fell only at 60 to 80 mmHg, 50 people. A bandage
// presses on artery, muscle and veins alike. A fall is taken as 2 points: what two sides of a sound person differ by.
test("check 17, fitted: under a bandage saturation falls by 2 points between 60 and 80 mmHg, not before", () => {
  const fall = (bandage: number) =>
    medianOf(settledBeats({ heart }, 160), "saturation") -
    medianOf(settledBeats({ heart, site: { tissue: bandage, band: bandage } }, 160), "saturation");
  expect(fall(60)).toBeLessThan(0.02);
  expect(fall(80)).toBeGreaterThan(0.02);
});
