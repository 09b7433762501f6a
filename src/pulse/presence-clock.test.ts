import { describe, expect, test } from "vitest";
import { favoursTone } from "./presence-clock.js";
import { layBeats } from "./presence-phase.js";
import { createTemplate, genericTemplate } from "./presence-template.js";
import { createRandom, makeNoise } from "./testing/noise.js";
import { makeBeats, makePulses } from "./testing/pulse-train.js";

const rate = 50;
const sine = createTemplate("sine", [1, 0, 0, 0], [0, 0, 0, 0]);
const noise = makeNoise("white", 1000, rate, createRandom(1));
const beatsWith = (scatter: number) => makeBeats(0, 20, 75, scatter, createRandom(2));
const meanRate = (beats: readonly number[]) => (beats.length - 1) / (beats.at(-1)! - beats[0]!);
const odds = (values: Float64Array, beats: readonly number[]) => favoursTone(layBeats(values, rate, beats)!);

describe("a likelihood ratio of tone over wave, 20 s, signal 9 dB above the noise", () => {
  const uneven = beatsWith(0.03);
  const tone = (frequency: number) =>
    noise.map((x, n) => x + 4 * Math.cos((2 * Math.PI * frequency * n) / rate));

  test.each([
    { name: "on the mean rate", frequency: meanRate(uneven) },
    { name: "on twice the mean rate", frequency: 2 * meanRate(uneven) },
    { name: "a third of a turn off", frequency: meanRate(uneven) + 1 / 60 },
  ])("a tone $name is a tone when the beats come unevenly", ({ frequency }) => {
    expect(odds(tone(frequency), uneven)).toBeGreaterThan(10);
  });

  test.each([
    { name: "sine", template: sine },
    { name: "pulse", template: genericTemplate },
  ])("a $name that follows uneven beats is no tone", ({ template }) => {
    const wave = makePulses(1000, rate, uneven, template, 8);
    expect(
      odds(
        noise.map((x, n) => x + wave[n]!),
        uneven,
      ),
    ).toBeLessThan(-10);
  });

  test("a pulse at even beats is no tone, because it has harmonics", () => {
    const even = beatsWith(0);
    const wave = makePulses(1000, rate, even, genericTemplate, 8);
    expect(
      odds(
        noise.map((x, n) => x + wave[n]!),
        even,
      ),
    ).toBeLessThan(-10);
  });

  // Equal fits differ by what noise brings to three harmonics (each 1 on average) and to the frequency (a half).
  test("at even beats a sine on the rate cannot be told from a tone", () => {
    const even = beatsWith(0);
    expect(Math.abs(odds(tone(meanRate(even)), even))).toBeLessThan(8);
  });

  test("a gap of four seconds does not hide which it is", () => {
    const cut = (values: Float64Array) => values.map((x, n) => (n >= 400 && n < 600 ? Number.NaN : x));
    const wave = makePulses(1000, rate, uneven, genericTemplate, 8);
    expect(odds(cut(tone(meanRate(uneven))), uneven)).toBeGreaterThan(10);
    expect(odds(cut(noise.map((x, n) => x + wave[n]!)), uneven)).toBeLessThan(-10);
  });

  test("size and constant do not matter", () => {
    const values = tone(meanRate(uneven));
    expect(
      odds(
        values.map((x) => 1e6 * x + 5e6),
        uneven,
      ),
    ).toBeCloseTo(odds(values, uneven), 6);
  });
});

test("a window of nothing is neither", () => {
  const nothing = odds(new Float64Array(1000), beatsWith(0.03));
  expect(nothing > 0 || nothing < 0).toBe(false);
});
