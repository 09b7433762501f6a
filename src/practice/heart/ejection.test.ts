import { describe, expect, test } from "vitest";
import { restingHeart } from "../controls/values.js";
import type { HeartBeat } from "../heart-now.js";
import { constants } from "./constants.js";
import { backflowTime, ejectionTime, preEjection, volumeGone } from "./ejection.js";
import { createHeart } from "./index.js";

const dt = 0.002;

describe("timing", () => {
  // Kortekaas 2018: 58 ± 13 ms by echo.
  test("pre-ejection of a usual beat is the published 58 ± 13 ms; a weak one waits longer", () => {
    expect(Math.abs(preEjection(1) - 0.058)).toBeLessThan(0.013);
    expect(preEjection(1.2)).toBe(preEjection(1));
    expect(preEjection(0)).toBeCloseTo(0.09, 12);
  });
  // The line of Weissler's group from memory; Lance's seated line is the published alternative.
  test.each([50, 70, 90, 110])(
    "ejection time at %d /min lies on the line from memory, and within 46 ms of the published seated one",
    (rate) => {
      expect(ejectionTime(rate, 1)).toBeCloseTo(0.413 - 0.0017 * rate, 12);
      expect(Math.abs(ejectionTime(rate, 1) - (0.379 - 0.0018 * rate))).toBeLessThan(0.046);
    },
  );
  test("ejection fits into the interval at any rate, and is short in a weak beat", () => {
    for (let rate = 25; rate <= 220; rate++) {
      expect(ejectionTime(rate, 1) + backflowTime + preEjection(1)).toBeLessThan(60 / rate);
      expect(ejectionTime(rate, 0.3)).toBeLessThan(ejectionTime(rate, 1));
    }
  });
});

describe("one stroke", () => {
  test("leaves whole: nothing before, the backflow too much at valve closure, the net stroke at the end", () => {
    expect(volumeGone(0, 0.3)).toBe(0);
    expect(volumeGone(-1, 0.3)).toBe(0);
    expect(volumeGone(0.3, 0.3)).toBeCloseTo(1.035, 12);
    expect(volumeGone(0.3 + backflowTime + 1e-9, 0.3)).toBe(1);
  });
  // The half-sine of x^0.85 is highest where x^0.85 = 1/2.
  test("flows fastest at 44 % of ejection, and back only while the valve shuts", () => {
    let fastest = 0;
    let at = 0;
    for (let n = 0; n < 400; n++) {
      const flow = volumeGone((n + 1) / 1000, 0.3) - volumeGone(n / 1000, 0.3);
      if (flow > fastest) {
        fastest = flow;
        at = (n + 0.5) / 300;
      }
      expect(flow < 0).toBe(n >= 300 && n < 345);
    }
    expect(at).toBeCloseTo(0.5 ** (1 / 0.85), 1);
  });
});

/** A steady heart after 20 s: one beat from its ejection on. */
function oneBeat(seconds: number) {
  const controls = { ...restingHeart(), variability: 0, breathing: 0, centralVenous: 4 };
  const beats: HeartBeat[] = [];
  const heart = createHeart({ seed: 1, dt, controls, onBeat: (beat) => beats.push(beat) });
  while (heart.now.time < 20) heart.step();
  const before = beats.length;
  while (beats.length === before) heart.step();
  const { ejection, ejectionTime: lasts } = beats.at(-1)!;
  while (heart.now.time < ejection) heart.step();
  const pressure = Float64Array.from({ length: seconds / dt }, () => {
    heart.step();
    return heart.now.aortic;
  });
  return { pressure, lasts, usual: heart.usualBeat };
}

describe("pressure at the root of the aorta", () => {
  test("shows an incisura that the backflow makes: a dip at valve closure and a rise after it", () => {
    const { pressure, lasts } = oneBeat(0.5);
    const from = Math.round(lasts / dt);
    const to = Math.round((lasts + backflowTime + 0.02) / dt);
    const window = pressure.subarray(from, to);
    const dip = window.indexOf(Math.min(...window.subarray(0, Math.round(backflowTime / dt))));
    expect(dip).toBeGreaterThan(0);
    const after = Math.max(...window.subarray(dip));
    expect(after - window[dip]!).toBeGreaterThan(1);
    expect(after - window[dip]!).toBeLessThan(8);
  });
  // Exact by the theory of the two-element windkessel: R C d ln(P − Pcv)/dt = −1.
  test("falls in diastole with the time constant R × C towards the central veins", () => {
    const { pressure, lasts, usual } = oneBeat(0.7);
    const from = Math.round((lasts + backflowTime + 0.01) / dt);
    const to = Math.round(0.68 / dt);
    const decay = Math.log((pressure[from]! - 4) / (pressure[to]! - 4)) / ((to - from) * dt);
    expect(decay * usual.resistance * constants.compliance.value).toBeCloseTo(1, 2);
  });
});
