/** Steady tones of several sizes, which are no pulse, and round pulses, which look like tones. Synthetic, white noise. */
import { testWithReference } from "../../src/pulse/presence-reference.js";
import { createTemplate } from "../../src/pulse/presence-template.js";
import { createRandom, makeNoise } from "../../src/pulse/testing/noise.js";
import { makeBeats, makePulses } from "../../src/pulse/testing/pulse-train.js";
import { recordedShapes } from "../../src/pulse/testing/shapes.js";
import { type Share, share } from "./presence-share.js";

const rate = 50;
const delay = { from: 0.1, to: 0.7 };

export interface ToneRow {
  readonly what: string;
  readonly seconds: number;
  /** Scatter of the reference's intervals, a share of their mean. */
  readonly scatter: number;
  /** Amplitude of the first harmonic or tone over the noise's SD per sample. */
  readonly amplitude: number;
  readonly atOnePercent: Share;
  readonly found: Share;
  readonly likely: Share;
}

type Draw = (beats: readonly number[], random: () => number) => Float64Array;

function row(
  what: string,
  seconds: number,
  scatter: number,
  amplitude: number,
  trials: number,
  seed: number,
  wave: Draw,
): ToneRow {
  const random = createRandom(seed + seconds);
  const hits = { onePercent: 0, found: 0, likely: 0 };
  for (let i = 0; i < trials; i++) {
    const referenceBeats = makeBeats(0, seconds, 50 + 60 * random(), scatter, random);
    const added = wave(referenceBeats, random);
    const values = makeNoise("white", added.length, rate, random).map((x, n) => x + added[n]!);
    const { p, answer } = testWithReference({ values, rate, referenceBeats, delay });
    if (p < 0.01) hits.onePercent++;
    if (answer === "found") hits.found++;
    if (answer === "likely") hits.likely++;
  }
  return {
    what,
    seconds,
    scatter,
    amplitude,
    atOnePercent: share(hits.onePercent, trials),
    found: share(hits.found, trials),
    likely: share(hits.likely, trials),
  };
}

/** Tones from 0.5 to 4 Hz that no beat drives: every answer but `cannot-tell` and `not-found` is a false alarm. */
export function toneAlarms(trials: number, seed = 20260606): ToneRow[] {
  const tone =
    (seconds: number, amplitude: number): Draw =>
    (_, random) => {
      const frequency = 0.5 + 3.5 * random();
      const start = 2 * Math.PI * random();
      return Float64Array.from({ length: seconds * rate }, (_, n) => {
        return amplitude * Math.cos(start + (2 * Math.PI * frequency * n) / rate);
      });
    };
  return [10, 20].flatMap((seconds) =>
    [0.25, 0.5, 1, 2, 5, 20].map((amplitude) =>
      row("tone", seconds, 0.03, amplitude, trials, seed, tone(seconds, amplitude)),
    ),
  );
}

/** What the guard against tones costs: pulses with next to no upper harmonics, at uneven and at almost even beats. */
export function roundPulses(trials: number, seed = 20260707): ToneRow[] {
  const shapes = [
    recordedShapes.find(({ name }) => name === "red_ir")!,
    createTemplate("second harmonic 10 %", [1, 0.1, 0.02, 0.005], [0, 1.4, 2.8, 4]),
    createTemplate("bare sine", [1, 0, 0, 0], [0, 0, 0, 0]),
  ];
  return [10, 20].flatMap((seconds) =>
    shapes.flatMap((shape) =>
      [0.03, 0.003].flatMap((scatter) =>
        [0.5, 2, 5].map((amplitude) =>
          row(shape.name, seconds, scatter, amplitude, trials, seed, (beats) => {
            const feet = beats.map((beat) => beat + 0.4);
            return makePulses(seconds * rate, rate, feet, shape, amplitude * shape.height);
          }),
        ),
      ),
    ),
  );
}
