/** From samples to verdict: invented probes, the real engine. The long run is `scripts/accuracy/reassurance.ts`. */
import { describe, expect, test } from "vitest";
import { scoreReassurance } from "../../scripts/accuracy/reassurance.js";
import { seconds } from "../model/index.js";
import { createRandom } from "../pulse/testing/noise.js";
import { makeBeats } from "../pulse/testing/pulse-train.js";
import { compareSides } from "./compare.js";
import type { Comparison } from "./comparison.js";
import { createSiteListener } from "./site-listener.js";
import { left, rawLight, right, undisturbed } from "./testing/make-reading.js";
import { clearProbe, listenBoth, makeLight, type ProbeRecipe } from "./testing/make-signals.js";

const stated = {
  oneClock: true,
  mechanism: null,
  sameDigit: null,
  sameHeight: true,
  sameProbe: true,
  soundHurt: false,
};

function compared(suspect: Partial<ProbeRecipe>, seed: number): Comparison {
  const random = createRandom(seed);
  const hearts = makeBeats(0, 30, 72, 0.03, random);
  const sound = makeLight(clearProbe, hearts, random);
  const other = makeLight({ ...clearProbe, ...suspect }, hearts, random);
  const heard = listenBoth(sound, other, { sound: right, suspect: left });
  return compareSides(heard.sound, heard.suspect, stated);
}

const seeds = [1, 2, 3, 4, 5, 6];
const count = (suspect: Partial<ProbeRecipe>, verdict: Comparison["verdict"]) =>
  seeds.filter((seed) => compared(suspect, seed).verdict === verdict).length;

test("no suspect side without a pulse ends as no-difference, whatever noise it has", () => {
  const { verdicts, trials } = scoreReassurance(105, 2026);
  expect(verdicts["no-difference"] ?? 0).toBe(0);
  // The test must not hold because nothing is ever decided.
  expect((verdicts.absent ?? 0) / trials).toBeGreaterThan(0.2);
});

describe("from samples to verdict", () => {
  test("a still probe without a pulse is absent", () => {
    expect(count({ pi: 0, noisePi: 0.01 }, "absent")).toBe(seeds.length);
  });

  test("equal sides show no difference, with the ratio put in", () => {
    expect(count({}, "no-difference")).toBe(seeds.length);
    expect(compared({}, 1).piRatio!.value).toBeCloseTo(1, 1);
  });

  test("a tenth of the size is weaker", () => {
    expect(count({ pi: 0.2, noisePi: 0.01 }, "weaker")).toBe(seeds.length);
    expect(compared({ pi: 0.2, noisePi: 0.005 }, 1).piRatio!.value).toBeCloseTo(0.1, 1);
  });

  test("60 ms behind is later, with the delay put in", () => {
    expect(count({ delay: 0.26 }, "later")).toBe(seeds.length);
    const delays = seeds.map((seed) => compared({ delay: 0.26 }, seed).delay!);
    // A 95 % interval may miss one in twenty, so one of six is let pass; the value itself stays within what real feet scatter (6 ms).
    expect(delays.filter(({ low, high }) => low <= 60 && 60 <= high).length).toBeGreaterThanOrEqual(5);
    for (const { value } of delays) expect(Math.abs(value - 60)).toBeLessThan(6);
  });

  test("a third of the size is neither: fingers of one hand can differ as much", () => {
    expect(count({ pi: 0.7, noisePi: 0.02 }, "cannot-tell")).toBe(seeds.length);
  });
});

describe("a site listener", () => {
  const random = createRandom(3);
  const light = makeLight(clearProbe, makeBeats(0, 30, 72, 0.03, random), random);
  const stretch = {
    from: seconds(10),
    to: seconds(30),
    reference: null,
    saturation: null,
    declared: undisturbed,
  };
  const listen = (cut: number, start = 0) => {
    const listener = createSiteListener({ channel: { ...rawLight, start: seconds(start) }, site: left });
    for (let at = 0; at < light.length; at += cut) listener.push(light.subarray(at, at + cut));
    listener.end();
    return listener;
  };

  test("gives the same reading however the samples are cut", () => {
    const whole = listen(light.length).reading(stretch);
    for (const cut of [1, 37, 500]) expect(listen(cut).reading(stretch)).toEqual(whole);
    expect(whole.capture).toBe("solid");
  });

  test("keeps record time when the channel starts late", () => {
    const late = listen(500, 2.5);
    const early = listen(500);
    expect(late.feet()[0]! - early.feet()[0]!).toBeCloseTo(2.5, 9);
    const shifted = late.reading({ ...stretch, from: seconds(12.5), to: seconds(32.5) });
    expect(shifted.pulseRate!.value).toBeCloseTo(early.reading(stretch).pulseRate!.value, 9);
    expect(shifted.from).toBe(12.5);
  });

  test("a stretch that is no longer kept is no reading", () => {
    const listener = createSiteListener({ channel: rawLight, site: null, keep: 10 });
    listener.push(light);
    listener.end();
    expect(listener.reading({ ...stretch, from: seconds(0), to: seconds(10) }).capture).toBe("unreadable");
  });
});
