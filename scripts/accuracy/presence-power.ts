/** How strong a pulse must be to be found, against a filter that knows shape, delay and noise. Synthetic, white noise, 75/min. */
import { testAlone } from "../../src/pulse/presence-alone.js";
import { type DelayPrior, ecgDelay, testWithReference } from "../../src/pulse/presence-reference.js";
import { genericTemplate, type Template } from "../../src/pulse/presence-template.js";
import { createRandom, makeNoise, normal } from "../../src/pulse/testing/noise.js";
import { makeBeats, makePulses } from "../../src/pulse/testing/pulse-train.js";
import { recordedShapes } from "../../src/pulse/testing/shapes.js";
import { type Share, share } from "./presence-share.js";

const rate = 50;
/** (2.326 + 1.282)² in dB: 1 % one-sided, 90 % power, everything known. */
const ideal = 20 * Math.log10(2.326348 + 1.281552);

interface Case {
  readonly name: string;
  readonly shapes: readonly Template[];
  readonly delay: DelayPrior | null;
  readonly scatter: number;
  readonly jitter: number;
  readonly seconds: number;
}

export interface PowerCurve {
  readonly name: string;
  readonly seconds: number;
  /** Signal energy over noise power, dB above the ideal filter's need; share with p < 0.01. */
  readonly points: readonly { readonly loss: number; readonly power: Share }[];
  /** Loss in dB at 90 % power; `null` if it lies beyond the points. About ±0.3 dB at 500 trials. */
  readonly lossAtNinety: number | null;
}

function curve(test: Case, trials: number, seed: number): PowerCurve {
  const levels = Array.from({ length: 17 }, (_, i) => i * 0.5);
  const hits = levels.map(() => 0);
  const random = createRandom(seed + test.seconds);
  for (let i = 0; i < trials; i++) {
    const beats = makeBeats(0, test.seconds, 75, test.scatter, random);
    const feet = beats.map((beat) => beat + 0.4);
    const unit = makePulses(test.seconds * rate, rate, feet, test.shapes[i % test.shapes.length]!, 1);
    const energy = unit.reduce((sum, x) => sum + x * x, 0);
    const noise = makeNoise("white", unit.length, rate, random);
    const referenceBeats = beats.map((beat) => beat + test.jitter * normal(random));
    levels.forEach((level, k) => {
      const size = Math.sqrt(10 ** ((ideal + level) / 10) / energy);
      const values = noise.map((x, n) => x + size * unit[n]!);
      const got =
        test.delay === null
          ? testAlone({ values, rate }).presence
          : testWithReference({ values, rate, referenceBeats, delay: test.delay, jitter: test.jitter });
      if (got.p < 0.01) hits[k]!++;
    });
  }
  const above = hits.findIndex((count) => count >= 0.9 * trials);
  const lossAtNinety =
    above < 1
      ? null
      : levels[above]! - (0.5 * (hits[above]! - 0.9 * trials)) / Math.max(1, hits[above]! - hits[above - 1]!);
  return {
    name: test.name,
    seconds: test.seconds,
    points: levels.map((loss, k) => ({ loss, power: share(hits[k]!, trials) })),
    lossAtNinety,
  };
}

/** One curve per case and window length. */
export function powerCurves(trials: number, seed = 20260303): PowerCurve[] {
  const typical = recordedShapes.slice(0, 8);
  const still = { scatter: 0.03, jitter: 0 };
  const search: DelayPrior = { from: 0.1, to: 0.7 };
  const withReference: readonly Omit<Case, "seconds">[] = [
    { name: "delay known, right shape", shapes: [genericTemplate], delay: { known: 0.4 }, ...still },
    { name: "delay known, generic shape", shapes: typical, delay: { known: 0.4 }, ...still },
    { name: "delay 0.1 to 0.7 s, right shape", shapes: [genericTemplate], delay: search, ...still },
    { name: "delay 0.1 to 0.7 s, generic shape", shapes: typical, delay: search, ...still },
    { name: "delay 0.05 to 0.9 s, generic shape", shapes: typical, delay: ecgDelay, ...still },
    { name: "delay within 0.1 s, generic shape", shapes: typical, delay: { from: 0.3, to: 0.5 }, ...still },
    { name: "delay 0.1 to 0.7 s, shape of data", shapes: [recordedShapes[8]!], delay: search, ...still },
    { name: "delay 0.1 to 0.7 s, shape of data2", shapes: [recordedShapes[9]!], delay: search, ...still },
    { name: "taps, 50 ms jitter", shapes: typical, delay: search, scatter: 0.03, jitter: 0.05 },
  ];
  const alone: readonly Omit<Case, "seconds">[] = [0.01, 0.03, 0.06].map((scatter) => ({
    name: `alone, ${100 * scatter} % interval scatter`,
    shapes: typical,
    delay: null,
    scatter,
    jitter: 0,
  }));
  return [
    ...[10, 20].flatMap((seconds) => withReference.map((test) => curve({ ...test, seconds }, trials, seed))),
    ...[5, 10, 20].flatMap((seconds) => alone.map((test) => curve({ ...test, seconds }, trials, seed))),
  ];
}
