import { describe, expect, test } from "vitest";
import { createRandom } from "../numbers/random.js";
import { LampRipple } from "./lamp-ripple.js";

/** Frequency with the most power, by correlation with every 0.05 Hz up to half the rate. */
function strongest(mains: number, rate: number): number {
  const lamp = new LampRipple(mains, rate, createRandom(5));
  const count = rate * 20;
  const values = Float64Array.from({ length: count }, () => {
    lamp.next();
    return lamp.infrared;
  });
  let best = 0;
  let power = 0;
  for (let f = 0.5; f <= rate / 2; f += 0.05) {
    let re = 0;
    let im = 0;
    for (let n = 0; n < count; n++) {
      re += values[n]! * Math.cos((2 * Math.PI * f * n) / rate);
      im += values[n]! * Math.sin((2 * Math.PI * f * n) / rate);
    }
    if (re * re + im * im > power) {
      power = re * re + im * im;
      best = f;
    }
  }
  return best;
}

// Sampling theorem: f is seen at |f − k × rate|, the nearest below half the rate. Lamps flicker at twice the mains.
describe("lamps seen through the sample clock", () => {
  test.each([
    [50, 125, 25],
    [60, 125, 5],
    [50, 60, 20],
    [60, 50, 20],
    [50, 250, 100],
  ])("mains of %d Hz at %d samples/s are seen at %d Hz", (mains, rate, alias) => {
    expect(Math.abs(strongest(mains, rate) - alias)).toBeLessThan(0.2);
  });

  test("the ripple stays within ±1 for an hour", () => {
    const lamp = new LampRipple(50, 125, createRandom(1));
    let most = 0;
    for (let n = 0; n < 450_000; n++) {
      lamp.next();
      most = Math.max(most, Math.abs(lamp.infrared), Math.abs(lamp.red));
    }
    expect(most).toBeLessThanOrEqual(1 + 1e-9);
    expect(most).toBeGreaterThan(0.99);
  });
});
