/** Strokes of a hand that rubs or of a limb that swings at a pulse's pace. Seeded; for tests and the accuracy run only. */
import { between, type Maker, ratioBetween, turn } from "./draws.js";
import { normal, type Random } from "./noise.js";

const rubbing: Maker = (rate, random) => {
  const f = between(random, 0.5, 3);
  const jitter = between(random, 0.02, 0.25);
  const unlike = between(random, 0.1, 0.6);
  const second = between(random, 0, 0.6);
  const start = turn * random();
  let phase = random();
  let pace = 1;
  let size = 1;
  let tilt = start;
  return () => {
    phase += (f * pace) / rate;
    if (phase >= 1) {
      phase -= 1;
      pace = Math.max(0.4, 1 + jitter * normal(random));
      size = 1 + unlike * normal(random);
      tilt = start + 2 * unlike * normal(random);
    }
    return (
      size * Math.sin(turn * phase) * (1 + second * Math.cos(turn * phase + tilt)) + 0.05 * normal(random)
    );
  };
};

/** Height of a stroke at a phase from 0 to 1; `tilt` moves its overtones, another for each stroke. */
type StrokeShape = (phase: number, tilt: number) => number;

/** There and back, one way a little faster. */
const roundStroke = (random: Random): StrokeShape => {
  const second = between(random, 0, 0.6);
  const start = turn * random();
  return (phase, tilt) => Math.sin(turn * phase) * (1 + second * Math.cos(turn * phase + start + tilt));
};

/** The probe yields to pressure from one side only, or to both alike. */
const halfStroke = (random: Random): StrokeShape => {
  if (random() < 0.3) return (phase) => Math.abs(Math.sin((turn / 2) * phase));
  const second = between(random, 0, 0.4);
  return (phase, tilt) => Math.max(0, Math.sin(turn * phase)) * (1 + second * Math.cos(turn * phase + tilt));
};

/** Any shape of four harmonics: some of them are a pulse's, and only their scatter can tell them from one. */
const anyStroke = (random: Random): StrokeShape => {
  const parts = [0.6, 0.3, 0.15].map((most) => ({ size: between(random, 0, most), start: turn * random() }));
  return (phase, tilt) =>
    parts.reduce(
      (sum, { size, start }, h) => sum + size * Math.sin((h + 2) * turn * phase + start + (h + 1) * tilt),
      Math.sin(turn * phase),
    );
};

/**
 * A hand that rubs or a limb that swings at 0.5 to 3 Hz: strokes of uneven length and size. The pace may drift by up
 * to `wander`, with a swell of the size, and the base under each stroke may move by up to `base` of its height.
 */
const strokes =
  (draw: (random: Random) => StrokeShape, wander = 0, base = 0): Maker =>
  (rate, random) => {
    const f = between(random, 0.5, 3);
    const jitter = between(random, 0.02, 0.25);
    const unlike = between(random, 0.1, 0.6);
    const level = ratioBetween(random, 0.005, 0.1);
    const drifts = wander * random();
    const swell = wander > 0 ? 0.5 * random() : 0;
    const slow = between(random, 0.03, 0.2);
    const moves = base * random();
    const shape = draw(random);
    let phase = random();
    let pace = 1;
    let size = 1;
    let tilt = 0;
    let drift = 0;
    let ground = 0;
    let aim = 0;
    return (time) => {
      drift += -drift / (5 * rate) + (drifts * normal(random)) / Math.sqrt(rate);
      phase += (f * pace * Math.max(0.3, 1 + drift)) / rate;
      if (phase >= 1) {
        phase -= 1;
        pace = Math.max(0.4, 1 + jitter * normal(random));
        size = 1 + unlike * normal(random);
        tilt = 2 * unlike * normal(random);
        aim = moves * normal(random);
      }
      ground += (aim - ground) * Math.min(1, (3 * f) / rate);
      const height = (1 + swell * Math.sin(turn * slow * time)) * size * shape(phase, tilt);
      return height + ground + level * normal(random);
    };
  };

export const strokeMakers = {
  rubbing,
  "strokes, round": strokes(roundStroke),
  "strokes, half waves": strokes(halfStroke),
  "strokes, any shape": strokes(anyStroke),
  "strokes, drifting pace": strokes(roundStroke, 0.1),
  "strokes, moving base": strokes(roundStroke, 0, 1.5),
} as const satisfies Readonly<Record<string, Maker>>;
