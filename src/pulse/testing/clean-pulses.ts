/** Pulses of many shapes, rates and sizes with little or no noise, none of which may be called nothing. For tests and the accuracy run only. */
import { normal, type Random } from "./noise.js";
import { recordedShapes } from "./shapes.js";

export interface PulseShape {
  readonly name: string;
  /** Rises fast and has harmonics, as most recorded pulses do; a rounded one cannot be told from a hum. */
  readonly steep: boolean;
  /** Height, about 0 to 1, `time` s after the foot of a beat of `interval` s where `mean` s are usual; beats add up. */
  readonly at: (time: number, interval: number, mean: number) => number;
}

/** The interval the recorded shapes were measured at, roughly, s; systole changes with the root of the interval. */
const usualInterval = 0.8;
const systole = 0.5;

/** What is left of a pulse that the next one cuts short fades in this time, s; a late next one finds it still running off, per s. */
const fade = 0.2;
const runOff = 0.03;

const recorded: readonly PulseShape[] = recordedShapes.map((template) => {
  const height = (phase: number) => {
    let sum = 0;
    for (let h = 0; h < template.re.length; h++) {
      const turn = 2 * Math.PI * (h + 1) * phase;
      sum += template.re[h]! * Math.cos(turn) - template.im[h]! * Math.sin(turn);
    }
    return sum / template.height;
  };
  const foot = height(0);
  return {
    name: template.name,
    steep: template.name !== "red_ir",
    at(time, interval, mean) {
      if (time < 0) return 0;
      // A pulse does not know how long its own interval will be: its timing goes by the usual one.
      const early = Math.min(systole * Math.sqrt(usualInterval * mean), 0.6 * mean);
      const own = Math.min(time, interval);
      const phase =
        own < early
          ? (systole * own) / early
          : Math.min(1, systole + ((1 - systole) * (own - early)) / (mean - early));
      const level = height(phase) - foot - runOff * Math.max(0, own - mean);
      return time <= interval ? level : level * Math.exp((interval - time) / fade);
    },
  };
});

const bump = (time: number, middle: number, width: number) => Math.exp(-(((time - middle) / width) ** 2) / 2);

/** Sizes, middles and widths of the forward and the returning wave, s at 75/min. */
const twoWaves = (
  name: string,
  first: readonly [number, number],
  second: readonly [number, number, number],
): PulseShape => ({
  name,
  steep: true,
  at(time, _interval, mean) {
    const t = time / Math.sqrt(mean / usualInterval);
    return bump(t, ...first) + second[0] * bump(t, second[1], second[2]);
  },
});

/** sin² over the whole interval (a bare sine), over half of it, and over 0.45 s at most; a little run-off keeps it moving between the pulses. */
const rounded = (name: string, length: (interval: number) => number): PulseShape => ({
  name,
  steep: false,
  at(time, interval) {
    const width = length(interval);
    if (time < 0 || time >= interval) return 0;
    const swing = (length: number) => Math.sin((Math.PI * Math.min(time, length)) / length) ** 2;
    return 0.95 * swing(width) + 0.05 * swing(interval);
  },
});

export const cleanShapes: readonly PulseShape[] = [
  ...recorded,
  twoWaves("two waves", [0.18, 0.055], [0.4, 0.4, 0.09]),
  twoWaves("two waves, soft", [0.24, 0.08], [0.3, 0.47, 0.12]),
  rounded("sin² of the interval", (interval) => interval),
  rounded("sin² of half the interval", (interval) => interval / 2),
  rounded("sin² of 0.45 s", (interval) => Math.min(0.45, interval)),
];

export interface CleanPulses {
  readonly shape: PulseShape;
  readonly seconds: number;
  readonly rate: number;
  readonly perMinute: number;
  /** SD of the intervals as a share of their mean, each on its own; none is below 0.27 s or half the mean. */
  readonly scatter: number;
  /** Height of a pulse, channel units. */
  readonly size: number;
  /** SD of white noise, share of the height. */
  readonly noise: number;
  readonly offset: number;
  /** Height of a slow swing of the base of 0.04 to 0.1 Hz, share of the pulse's. */
  readonly wander: number;
}

export function makeCleanPulses(of: CleanPulses, random: Random): Float64Array {
  const mean = 60 / of.perMinute;
  const least = Math.max(0.5 * mean, Math.min(0.27, 0.9 * mean));
  const feet = [-3 * mean - mean * random()];
  while (feet.at(-1)! < of.seconds + 2 * mean) {
    feet.push(feet.at(-1)! + Math.max(least, mean * (1 + of.scatter * normal(random))));
  }
  const swing = 2 * Math.PI * (0.04 + 0.06 * random());
  const start = 2 * Math.PI * random();
  let beat = 0;
  return Float64Array.from({ length: Math.round(of.seconds * of.rate) }, (_, n) => {
    const time = n / of.rate;
    while (feet[beat + 1]! <= time) beat++;
    let sum = (of.wander / 2) * Math.sin(start + swing * time);
    // Three beats cover the tails, and a wave of two Gaussians begins a little before its foot.
    for (let b = Math.max(0, beat - 2); b <= beat + 1; b++)
      sum += of.shape.at(time - feet[b]!, feet[b + 1]! - feet[b]!, mean);
    if (of.noise > 0) sum += of.noise * normal(random);
    return of.offset + of.size * sum;
  });
}
