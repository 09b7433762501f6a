/** What else a pleth shows without a pulse: hums, breaths, movements, resonances, steps. Seeded; for tests and the accuracy run only. */
import { between, type Maker, ratioBetween, turn } from "./draws.js";
import { normal, type Random } from "./noise.js";
import { strokeMakers } from "./strokes.js";

/** A sine whose pace and size wander: mains folded down by the sampling, or a fan. */
const hum =
  (swell: number, wander: number): Maker =>
  (rate, random) => {
    const f = between(random, 0.5, 4);
    const slow = between(random, 0.05, 0.3);
    const level = ratioBetween(random, 0.003, 0.3);
    let phase = turn * random();
    let drift = 0;
    return (time) => {
      drift += -drift / (2 * rate) + (wander * normal(random)) / Math.sqrt(rate);
      phase += (turn * f * (1 + drift)) / rate;
      return (1 + swell * Math.sin(turn * slow * time)) * Math.sin(phase) + level * normal(random);
    };
  };

/** Mains itself at the sampling it meets: 50 or 60 Hz within 0.2 %, with a third harmonic. */
const mains: Maker = (_rate, random) => {
  const f = (random() < 0.5 ? 50 : 60) * (1 + 0.004 * (random() - 0.5));
  const start = turn * random();
  const third = between(random, 0, 0.3);
  const level = ratioBetween(random, 0.001, 0.1);
  return (time) =>
    Math.sin(turn * f * time + start) +
    third * Math.sin(3 * (turn * f * time + start) + 1) +
    level * normal(random);
};

/** Breaths of uneven length and depth; `shape` of the phase from 0 to 1. */
const breaths =
  (shape: (phase: number, random: Random) => number): Maker =>
  (rate, random) => {
    const f = between(random, 0.2, 0.5);
    const uneven = between(random, 0, 0.12);
    const level = ratioBetween(random, 0.002, 0.1);
    let phase = random();
    let pace = 1;
    let depth = 1;
    return () => {
      phase += (f * pace) / rate;
      if (phase >= 1) {
        phase -= 1;
        pace = Math.max(0.5, 1 + uneven * normal(random));
        depth = Math.max(0.3, 1 + uneven * normal(random));
      }
      return depth * shape(phase, random) + level * normal(random);
    };
  };

/** Fast in, slow out. */
const saw = (phase: number) =>
  phase < 0.25 ? Math.sin((Math.PI / 2) * (phase / 0.25)) : Math.cos((Math.PI / 2) * ((phase - 0.25) / 0.75));

/** Second-order resonance driven by white noise: AR(2) with poles at the angle of `f`. */
const resonance =
  (low: number, high: number, bursts: number): Maker =>
  (rate, random) => {
    const f = between(random, low, high);
    const width = ratioBetween(random, 0.05, 0.6) * f;
    const radius = Math.exp((-Math.PI * width) / rate);
    const cos = 2 * radius * Math.cos((turn * f) / rate);
    let a = 0;
    let b = 0;
    let on = 1;
    let left = 0;
    return () => {
      left -= 1 / rate;
      if (left <= 0) {
        on = random() < bursts ? 0.1 : 1;
        left = between(random, 0.4, 2);
      }
      const next = cos * a - radius * radius * b + on * normal(random);
      b = a;
      a = next;
      return a;
    };
  };

const steps: Maker = (rate, random) => {
  const wait = between(random, 0.4, 3);
  const level = ratioBetween(random, 0.003, 0.1);
  const smooth = between(random, 0.01, 0.15);
  let aim = 0;
  let at = 0;
  let left = 0;
  return () => {
    left -= 1 / rate;
    if (left <= 0) {
      left = wait * -Math.log(1 - random());
      aim = normal(random);
    }
    at += (aim - at) * Math.min(1, 1 / (smooth * rate));
    return at + level * normal(random);
  };
};

const drift: Maker = (_rate, random) => {
  const parts = Array.from({ length: 4 }, () => ({
    f: between(random, 0.005, 0.1),
    start: turn * random(),
    size: normal(random),
  }));
  const level = ratioBetween(random, 0.0003, 0.03);
  return (time) =>
    parts.reduce((sum, { f, start, size }) => sum + size * Math.sin(turn * f * time + start), 0) +
    level * normal(random);
};

const makers = {
  hum: hum(0, 0),
  "hum, swelling": hum(0.6, 0),
  "hum, wandering": hum(0.3, 0.03),
  mains,
  drift,
  "breaths, round": breaths((phase) => -Math.cos(turn * phase)),
  "breaths, saw": breaths(saw),
  "breaths, harmonics": breaths(
    (phase) =>
      Math.cos(turn * phase) + 0.3 * Math.cos(2 * turn * phase + 1) + 0.12 * Math.cos(3 * turn * phase),
  ),
  ...strokeMakers,
  "movement bursts": resonance(0.5, 3, 0.6),
  transport: resonance(3, 15, 0.3),
  resonance: resonance(0.6, 3.5, 0),
  steps,
} as const satisfies Readonly<Record<string, Maker>>;

export type DisturbanceKind = keyof typeof makers;
/** Rubbing and its neighbours: what comes nearest to a pulse. */
export const strokeKinds = Object.keys(strokeMakers) as readonly (keyof typeof strokeMakers)[];
export const disturbanceKinds = Object.keys(makers) as readonly DisturbanceKind[];

export function isDisturbance(kind: string): kind is DisturbanceKind {
  return kind in makers;
}

/** `count` samples at `rate`; each call is another draw. */
export function makeDisturbance(
  kind: DisturbanceKind,
  count: number,
  rate: number,
  random: Random,
): Float64Array {
  const source = makers[kind](rate, random);
  return Float64Array.from({ length: count }, (_, n) => source(n / rate));
}
