/**
 * Tells a lone tone that happens to lie on the heart's rate or a multiple of it (mains alias, a fan, a
 * shaking bed) from a wave with the harmonics a pulse has. Strong tones only: a weak one looks like a rounded pulse.
 */
import type { BeatLines } from "./presence-lines.js";
import { genericTemplate, harmonicCount } from "./presence-template.js";

/**
 * The second to fourth harmonic, relative to the generic shape, that even a rounded wave brings along: 0.2;
 * the roundest marked channel, `red_ir`, has 0.58 of the second on average and less in some windows. Working default.
 */
const leastUpper = 0.2;
/** The first harmonic is at least this share of any other; `data2` and `data` have 0.81. Working default. */
const leastFirst = 0.75;
/** How far outside chance the missing part must lie, standard deviations. Working default. */
const deviations = 2.5;

/** Whether harmonics are missing that any pulse as strong as the strongest harmonic would have brought. */
export function isTone(lines: BeatLines, blur: number): boolean {
  const size = (h: number) => Math.hypot(lines.re[h - 1]!, lines.im[h - 1]!);
  const shape = (h: number) => Math.hypot(genericTemplate.re[h - 1]!, genericTemplate.im[h - 1]!);
  const noise = (h: number) => lines.noise[h - 1]!;
  let expected = 0;
  let energy = 0;
  let dof = 0;
  for (let h = 2; h <= harmonicCount; h++) {
    const fade = Math.exp(-((2 * Math.PI * blur) ** 2 * (h * h - 1)) / 2);
    expected += (2 * (leastUpper * fade * shape(h) * (size(1) / shape(1))) ** 2) / noise(h);
    energy += (2 * size(h) ** 2) / noise(h);
    dof += 2;
    const spread = Math.sqrt((noise(1) + leastFirst ** 2 * noise(h)) / 2);
    if (leastFirst * size(h) - size(1) > deviations * spread) return true;
  }
  // Mean and variance of a non-central chi-square; Abramowitz and Stegun, 26.4.36.
  return energy < dof + expected - deviations * Math.sqrt(2 * (dof + 2 * expected));
}
