import { describe, expect, test } from "vitest";
import { lightConstants as c } from "./constants.js";
import { electronsPerSample, Receiver } from "./receiver.js";

/** Relative standard deviation of steady light at the resting level. */
function spreadAt(current: number, bits = 24): number {
  const receiver = new Receiver(bits, 3, 0);
  const count = 100_000;
  const light = c.restingLevel.value;
  let sum = 0;
  let square = 0;
  for (let n = 0; n < count; n++) {
    receiver.next(light, current);
    const off = receiver.value / light - 1;
    sum += off;
    square += off * off;
  }
  return Math.sqrt(square / count - (sum / count) * (sum / count));
}

describe("photon noise", () => {
  // Poisson's law: the spread of a count N is its square root. Current and gate give N; figures in percent of the
  // level are section 3 of the model's physiology (arithmetic).
  test.each([
    [100, 0.013],
    [10, 0.04],
    [1, 0.13],
  ])("%d nA in a gate of 100 µs spread by %d %% of the level", (current, percent) => {
    const counted = 100 / Math.sqrt(electronsPerSample(current));
    expect(counted).toBeCloseTo(percent, 2);
    // A standard deviation from 100 000 draws is known to 0.22 %; the amplifier adds its own at high currents.
    const amplifier = (100 * c.amplifierNoise.value) / c.restingLevel.value;
    const expected = Math.sqrt(counted * counted + amplifier * amplifier);
    expect(Math.abs((100 * spreadAt(current)) / expected - 1)).toBeLessThan(0.015);
  });

  test("half the light has 1.414 times the relative spread", () => {
    expect(spreadAt(2) / spreadAt(4)).toBeCloseTo(Math.SQRT2, 1);
  });
});

describe("converter", () => {
  test.each([8, 12, 16, 18, 24])("stores on %d bits: every value is a whole number of steps", (bits) => {
    const receiver = new Receiver(bits, 1, 0);
    for (let n = 0; n < 200; n++) {
      receiver.next(n / 200, 1);
      expect(Number.isInteger(receiver.value * 2 ** bits)).toBe(true);
      expect(receiver.value).toBeGreaterThanOrEqual(0);
      expect(receiver.value).toBeLessThan(1);
    }
  });

  test("light beyond full scale stands at the rail and says so", () => {
    const receiver = new Receiver(16, 1, 0);
    receiver.next(1.3, 50);
    expect(receiver.value).toBe(1 - 2 ** -16);
    expect(receiver.clipped).toBe(true);
    receiver.next(0.5, 50);
    expect(receiver.clipped).toBe(false);
  });

  test("a coarse converter stands still where a fine one still moves", () => {
    const coarse = new Receiver(8, 1, 0);
    const fine = new Receiver(20, 1, 0);
    const seen = { coarse: new Set<number>(), fine: new Set<number>() };
    for (let n = 0; n < 100; n++) {
      coarse.next(0.501, 500);
      fine.next(0.501, 500);
      seen.coarse.add(coarse.value);
      seen.fine.add(fine.value);
    }
    expect(seen.coarse.size).toBe(1);
    expect(seen.fine.size).toBeGreaterThan(10);
  });
});
