/**
 * The precision bar is theory: no unbiased estimate of a delay between two noisy copies of a known wave scatters less
 * than √2·σ / √(Σ s'²) (Cramér-Rao bound; e.g. Kay, "Fundamentals of Statistical Signal Processing: Estimation
 * Theory", 1993, example 3.13, from memory; √2 because both sides are noisy).
 */
import { describe, expect, test } from "vitest";
import { createGauss, createRandom } from "../../scripts/accuracy/seeded-random.js";
import { hertz, seconds } from "../model/units.js";
import { sideDelay } from "./side-delay.js";

const rate = hertz(62.5);
const beatCount = 21;

/** A smooth pulse of 0.8 s: two bumps of Gaussian shape, the second the dicrotic wave. */
const pulse = (t: number) =>
  Math.exp(-(((t - 0.2) / 0.07) ** 2)) + 0.35 * Math.exp(-(((t - 0.45) / 0.09) ** 2));
const slope = (t: number) => (pulse(t + 1e-5) - pulse(t - 1e-5)) / 2e-5;

function side(delay: number, noise: number, gauss: () => number, shape = pulse) {
  const values = Float64Array.from({ length: Math.round(18 * rate) }, (_, i) => {
    const t = i / rate - delay;
    const beat = Math.floor((t - 0.3) / 0.8);
    return 5 + shape(t - 0.3 - 0.8 * beat) + shape(t - 0.3 - 0.8 * (beat - 1)) + noise * gauss();
  });
  const feet = Array.from({ length: beatCount }, (_, k) => 0.4 + 0.8 * k + delay + 0.3 * noise * gauss());
  return { values, rate, feet };
}

/** Scatter and mean of the shift by shape over repeats, s. */
function trial(noise: number, repeats: number) {
  const gauss = createGauss(createRandom(7));
  const delay = 0.0237;
  let sum = 0;
  let square = 0;
  let covered = 0;
  let count = 0;
  for (let k = 0; k < repeats; k++) {
    const { byShape } = sideDelay(side(0, noise, gauss), side(delay, noise, gauss));
    const error = byShape!.value - delay;
    sum += error;
    square += error * error;
    count = byShape!.count;
    if (byShape!.low <= delay && byShape!.high >= delay) covered++;
  }
  const mean = sum / repeats;
  return { mean, scatter: Math.sqrt(square / repeats - mean * mean), covered: covered / repeats, count };
}

describe("delay by shape", () => {
  test.each([0.03, 0.1])("from 20 beats scatters at most 1.3 times the bound at noise %d", (noise) => {
    const { mean, scatter, covered, count } = trial(noise, 150);
    expect(count).toBeGreaterThanOrEqual(19);
    let energy = 0;
    for (let t = -0.1; t < 0.54; t += 1 / rate) energy += slope(t + 0.1) ** 2;
    const bound = (Math.SQRT2 * noise) / Math.sqrt(energy * count);
    expect(scatter).toBeLessThanOrEqual(1.3 * bound);
    expect(Math.abs(mean)).toBeLessThan(0.3 * bound);
    // 95 % interval, 150 repeats: 99.9 % of such counts lie above 0.88 (binomial).
    expect(covered).toBeGreaterThanOrEqual(0.88);
  });

  test.each([-0.15, -0.02, 0, 0.05, 0.18])("is exact without noise at %d s", (delay) => {
    const { byShape, byFoot, shapeDifference } = sideDelay(
      side(0, 0, () => 0),
      side(delay, 0, () => 0),
    );
    expect(byShape!.value).toBeCloseTo(delay, 4);
    expect(byFoot!.value).toBeCloseTo(delay, 9);
    expect(shapeDifference).toBeLessThan(0.01);
  });

  test("moves with a rounded wave, which the feet do not, and says how unlike the shapes are", () => {
    const rounded = (t: number) => Math.exp(-(((t - 0.27) / 0.12) ** 2));
    const q = sideDelay(
      side(0, 0, () => 0),
      side(0, 0, () => 0, rounded),
    );
    expect(q.byShape!.value).toBeGreaterThan(0.03);
    expect(q.byFoot!.value).toBeCloseTo(0, 9);
    expect(q.shapeDifference).toBeGreaterThan(0.2);
  });

  test("is not given for too few beats, or where the other side shows nothing", () => {
    const one = side(0, 0, () => 0);
    expect(sideDelay({ ...one, feet: one.feet.slice(0, 3) }, one).byShape).toBeNull();
    const flat = { ...one, values: new Float64Array(one.values.length).fill(3), feet: [] };
    expect(sideDelay(one, flat)).toEqual({ byShape: null, byFoot: null, shapeDifference: null });
  });

  test("leaves out beats that touch missing samples, and respects each side's start", () => {
    const one = side(0, 0, () => 0);
    const other = side(0.03, 0, () => 0);
    other.values.fill(Number.NaN, 300, 320);
    const shifted = { ...other, start: seconds(100), feet: other.feet.map((foot) => foot + 100) };
    const base = { ...one, start: seconds(100), feet: one.feet.map((foot) => foot + 100) };
    const { byShape } = sideDelay(base, shifted);
    expect(byShape!.value).toBeCloseTo(0.03, 4);
    expect(byShape!.count).toBeLessThan(20);
    expect(byShape!.count).toBeGreaterThanOrEqual(16);
  });
});
