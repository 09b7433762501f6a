/**
 * The probe's light before the project's own listener. Nothing here is evidence about limbs: it shows that the two
 * fit together, and where the listener is fooled by what the model can do. Figures are this model's, not published.
 */
import { describe, expect, test } from "vitest";
import { heardGrades } from "./heard-grades.js";
import { type ProbeRunOptions, runProbe } from "./probe-run.js";

const seeds = [0, 1, 2];
const heard = (options: Partial<ProbeRunOptions>) =>
  seeds.flatMap((seed) => heardGrades(runProbe({ seconds: 30, seed, ...options }).infrared, 125));

describe("the listener hears", () => {
  test("a clean finger as solid", () => {
    expect(new Set(heard({}))).toEqual(new Set(["solid"]));
  });
  test("a dim light with a fair pulse as solid", () => {
    expect(new Set(heard({ set: { photocurrent: 1 } }))).toEqual(new Set(["solid"]));
  });
  test("an unplugged probe as off", () => {
    expect(new Set(heard({ set: { contact: "unplugged" } }))).toEqual(new Set(["off"]));
  });
  test("a sensor blinded by sunlight as off: it stands at its rail", () => {
    expect(new Set(heard({ set: { contact: "off", ambient: 1 } }))).toEqual(new Set(["off"]));
  });

  // A probe that lies beside the digit in a lit room gives live numbers without a pulse. From one channel without a
  // lamp-off sample that looks like a digit without a pulse (S5): never solid is what can be asked here.
  test.each<[string, Partial<ProbeRunOptions>]>([
    ["a probe beside the digit in a dim room", { set: { contact: "off" } }],
    ["the same under lamps", { set: { contact: "off", ambient: 0.1, mains: 0.3 } }],
    ["noise alone", { index: 0 }],
    ["noise alone in a dim light", { index: 0, set: { photocurrent: 1 } }],
    ["noise as large as the light itself", { index: 0, set: { photocurrent: 0.2, varnish: 0.99 } }],
    ["the shaking of the body under a full occlusion, usual size", { index: 0, set: { heartShake: 0.1 } }],
    ["regular rubbing without a pulse", { index: 0, set: { rubbing: 3 } }],
    ["a vehicle without a pulse", { index: 0, set: { transport: 5 } }],
    ["knocks without a pulse", { index: 0, set: { knocks: 30, knocksPerMinute: 60 } }],
    ["blood sloshing in the veins without a pulse", { index: 0, set: { slosh: 10 } }],
  ])("%s never as solid", (_, options) => {
    expect(heard(options)).not.toContain("solid");
  });
});
