/**
 * Holds the lines of a window against a template at every delay allowed, and says how likely chance
 * alone is to match that well. Closed form, so live and replay agree to the last bit.
 */
import { studentQuantile, studentTail } from "../dsp/distributions.js";
import type { BeatLines } from "./presence-lines.js";
import { harmonicCount, type Template, type WeighedTemplate } from "./presence-template.js";

/**
 * Share of the degrees of freedom that is left after the weights were estimated from the same data, for
 * noise taken from J lines on each side: J / (J + 2.5). Picked on white, pink and brown noise of 5, 10 and 20 s,
 * where a fixed share fires up to twice as often as it should at 5 s or wastes power at 20 s.
 */
const freedomCost = 2.5;

/** Energy that noise alone may bring beside the template: the upper 97.5 % point of chi-square with 8 − 1 degrees of freedom. */
const byChance = 16.01;

/** Delays tried per beat; the best is then refined by a parabola. Four harmonics need about 16. */
const stepsPerBeat = 48;

export interface Match {
  /** Best matched-filter output over the delays, in its own standard deviations. */
  readonly score: number;
  /** Delay of the foot in beats, where the score is best. */
  readonly phase: number;
  /** Chance of at least this score without a pulse, the search paid; one-sided: upright waves only. */
  readonly p: number;
  /** Peak-to-peak size of the template at the best delay, and its standard error, in the input's unit. */
  readonly size: number;
  readonly sizeError: number;
  readonly freedom: number;
  /** Cosine between the template and the lines found, noise weighted and with what noise may bring taken off; 0 to 1. */
  readonly likeness: number;
}

/**
 * @param blur standard deviation of the reference's timing in beats; upper harmonics are trusted less
 * @param from,to delays of the foot searched, in beats; equal when the delay is known; more than a beat counts as one
 * @returns `null` if the noise is zero or beyond what numbers can hold, so that nothing can be measured
 */
export function matchTemplate(
  lines: BeatLines,
  template: Template,
  blur: number,
  from: number,
  to: number,
): Match | null {
  const re: number[] = [];
  const im: number[] = [];
  let information = 0;
  let weightSpread = 0;
  let curvature = 0;
  let energy = 0;
  for (let h = 1; h <= harmonicCount; h++) {
    const noise = lines.noise[h - 1]!;
    if (!(noise > 0)) return null;
    const loss = Math.exp(-((2 * Math.PI * h * blur) ** 2) / 2);
    const gRe = template.re[h - 1]! * loss;
    const gIm = template.im[h - 1]! * loss;
    const yRe = lines.re[h - 1]!;
    const yIm = lines.im[h - 1]!;
    re.push((gRe * yRe + gIm * yIm) / noise);
    im.push((gRe * yIm - gIm * yRe) / noise);
    const weight = (gRe * gRe + gIm * gIm) / noise;
    information += weight;
    weightSpread += weight ** 2 / lines.freedom;
    curvature += (2 * Math.PI * h) ** 2 * weight;
    energy += (yRe * yRe + yIm * yIm) / noise;
  }
  if (!(information > 0 && Number.isFinite(energy))) return null;
  const scale = Math.sqrt(2 / information);
  const scoreAt = (phase: number): number => {
    let sum = 0;
    for (let h = 1; h <= harmonicCount; h++) {
      const turn = 2 * Math.PI * h * phase;
      sum += re[h - 1]! * Math.cos(turn) - im[h - 1]! * Math.sin(turn);
    }
    return sum * scale;
  };
  const { score, phase } = best(scoreAt, from, Math.min(to, from + 1));
  const around = lines.freedom / 4;
  const freedom = ((around / (around + freedomCost)) * information ** 2) / weightSpread;
  if (!(freedom > 0 && Number.isFinite(freedom))) return null;
  const paid =
    (Math.min(to - from, 1) *
      Math.sqrt(curvature / information) *
      (1 + score ** 2 / freedom) ** ((1 - freedom) / 2)) /
    (2 * Math.PI);
  const p = Math.min(1, studentTail(score, freedom) + (score > 0 ? paid : to > from ? 1 : 0));
  const perScore = (lines.amplitudePerLine * template.height) / Math.sqrt(2 * information);
  return {
    score,
    phase,
    p,
    size: score * perScore,
    sizeError: perScore,
    freedom,
    likeness: score > 0 ? score / Math.sqrt(Math.max(score ** 2, 2 * energy - byChance)) : 0,
  };
}

function best(
  scoreAt: (phase: number) => number,
  from: number,
  to: number,
): { score: number; phase: number } {
  const steps = Math.ceil((to - from) * stepsPerBeat);
  let phase = from;
  let score = scoreAt(from);
  for (let i = 1; i <= steps; i++) {
    const tried = from + ((to - from) * i) / steps;
    const found = scoreAt(tried);
    if (found > score) {
      score = found;
      phase = tried;
    }
  }
  if (steps < 1) return { score, phase };
  const step = (to - from) / steps;
  const before = scoreAt(phase - step);
  const after = scoreAt(phase + step);
  const bend = before - 2 * score + after;
  if (bend >= 0) return { score, phase };
  const refined = Math.min(to, Math.max(from, phase + (step * (before - after)) / (2 * bend)));
  const found = scoreAt(refined);
  return found > score ? { score: found, phase: refined } : { score, phase };
}

/** Largest size of a wave of this shape that could have hidden: one-sided, at `confidence`. */
export function largestHidden(match: Match, confidence: number): number {
  return Math.max(0, match.size) + studentQuantile(1 - confidence, match.freedom) * match.sizeError;
}

/** The best match of a family of templates, the choice among them paid. Parameters as in `matchTemplate`. */
export function matchFamily(
  lines: BeatLines,
  family: readonly WeighedTemplate[],
  blur: number,
  from: number,
  to: number,
): Match | null {
  let best: Match | null = null;
  for (const { template, share } of family) {
    const fit = matchTemplate(lines, template, blur, from, to);
    if (fit === null) return null;
    const p = Math.min(1, fit.p / share);
    if (best === null || p < best.p) best = { ...fit, p };
  }
  return best;
}
