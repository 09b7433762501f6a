/**
 * How often a suspect side without any pulse ends as each verdict: synthetic noise under raw light or
 * a display trace, tested against the sound side's pulses. The bar is: none ends as `no-difference`.
 */
import { compareSides } from "../../src/limb/compare.js";
import type { Verdict } from "../../src/limb/comparison.js";
import { displayTrace, left, rawLight, right } from "../../src/limb/testing/make-reading.js";
import { clearProbe, listenBoth, makeLight } from "../../src/limb/testing/make-signals.js";
import { createRandom, noiseKinds } from "../../src/pulse/testing/noise.js";
import { makeBeats } from "../../src/pulse/testing/pulse-train.js";

export interface ReassuranceScore {
  readonly trials: number;
  readonly verdicts: { readonly [verdict in Verdict]?: number };
  /** Upper 95 % limit of the true share of `no-difference`, 0 to 1; exact for a count of 0, else by its normal form. */
  readonly limit: number;
}

/** Everything stated and nothing disturbing: the conditions under which `no-difference` is easiest to reach. */
const stated = {
  oneClock: true,
  mechanism: "fracture",
  sameDigit: null,
  sameHeight: true,
  sameProbe: true,
  soundHurt: false,
} as const;

/** Noise from a hundredth of to twice the sound side's size, 40 to 160 /min, three trials in ten on display traces. */
export function scoreReassurance(trials: number, seed: number): ReassuranceScore {
  const verdicts: { [verdict in Verdict]?: number } = {};
  for (let trial = 0; trial < trials; trial++) {
    const random = createRandom(seed + 7919 * trial);
    const noise = noiseKinds[trial % noiseKinds.length]!;
    const noisePi = 0.02 * 200 ** random();
    const display = random() < 0.3;
    const hearts = makeBeats(0, 30, 40 + 120 * random(), 0.005 + 0.06 * random(), random);
    const sound = makeLight(clearProbe, hearts, random);
    const suspect = makeLight({ ...clearProbe, pi: 0, noise, noisePi }, hearts, random);
    const channel = display ? { ...displayTrace, polarity: "systole-down" as const } : rawLight;
    const heard = listenBoth(sound, suspect, { sound: right, suspect: left }, { channel });
    const { verdict } = compareSides(heard.sound, heard.suspect, stated);
    verdicts[verdict] = (verdicts[verdict] ?? 0) + 1;
  }
  const share = (verdicts["no-difference"] ?? 0) / trials;
  const limit =
    share === 0 ? 1 - 0.05 ** (1 / trials) : share + 1.645 * Math.sqrt((share * (1 - share)) / trials);
  return { trials, verdicts, limit };
}
