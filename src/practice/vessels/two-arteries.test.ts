import { describe, expect, test } from "vitest";
import { between, limbBeats, medianOf } from "../testing/limb-beats.js";
import { evenHeart, runLimb } from "../testing/limb-run.js";
import type { Recruitment } from "./person.js";

const press = 20;

/** Pulse over that before the radial artery is pressed: at once, and just before two minutes are over. */
function archTest(arch: number, recruitment: Recruitment | null = null) {
  const run = runLimb({
    seconds: press + 122,
    hand: "two-arteries",
    person: { recruitment },
    heart: evenHeart,
    quietTone: true,
    site: { arch },
    turn: (time, site) => {
      site.radialPress = time < press ? 0 : 1;
    },
  });
  const beats = limbBeats(run);
  const before = medianOf(between(beats, 10, press - 1), "perfusionIndex");
  const over = (from: number, to: number) =>
    medianOf(between(beats, press + from, press + to), "perfusionIndex") / before;
  return { run, atOnce: over(2, 6), late: over(105, 119) };
}

// Barbeau et al., Am Heart J 2004;147:489: A no damping, B damping, C loss then recovery within 2 min, D loss without.
// Which resistance makes which pattern is a working default; "lost" is below a tenth.
describe("pressing the radial artery, probe on thumb or index finger", () => {
  test.each([5, 10])("an arch of %d hardly damps the pulse (A)", (arch) => {
    expect(archTest(arch).atOnce).toBeGreaterThan(0.9);
  });
  test.each([60, 80])("an arch of %d damps it (B)", (arch) => {
    const { atOnce } = archTest(arch);
    expect(atOnce).toBeGreaterThan(0.3);
    expect(atOnce).toBeLessThan(0.9);
  });
  test("an arch that opens loses it and brings it back within two minutes (C)", () => {
    const { atOnce, late } = archTest(2000, { resistance: 40, time: 30 });
    expect(atOnce).toBeLessThan(0.1);
    expect(late).toBeGreaterThan(0.5);
  });
  test("a stiff arch loses it for good (D)", () => {
    const { atOnce, late } = archTest(2000);
    expect(atOnce).toBeLessThan(0.1);
    expect(late).toBeLessThan(0.1);
  });

  test("the way the pulse comes is told: by the radial artery before, by the arch after", () => {
    const { run } = archTest(8);
    const mean = (values: Float64Array, from: number, to: number) => {
      const part = values.slice(from / run.dt, to / run.dt);
      return part.reduce((sum, value) => sum + value, 0) / part.length;
    };
    expect(mean(run.mainFlow, 10, 19)).toBeGreaterThan(5 * Math.abs(mean(run.collateralFlow, 10, 19)));
    expect(Math.abs(mean(run.mainFlow, 30, 40))).toBeLessThan(1e-3);
    expect(mean(run.collateralFlow, 30, 40)).toBeGreaterThan(0.05);
  });
});

test("with no finger on it the hand with two arteries pulses as the one-artery hand, within 5 % and 5 ms", () => {
  const read = (hand: "one-artery" | "two-arteries") =>
    between(limbBeats(runLimb({ seconds: 40, hand, heart: evenHeart, quietTone: true })), 25, 40);
  const one = read("one-artery");
  const two = read("two-arteries");
  expect(Math.abs(medianOf(two, "perfusionIndex") / medianOf(one, "perfusionIndex") - 1)).toBeLessThan(0.05);
  expect(Math.abs(medianOf(two, "foot") - medianOf(one, "foot"))).toBeLessThan(0.005);
});
