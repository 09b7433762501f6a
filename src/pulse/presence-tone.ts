/**
 * Tells a lone tone that happens to lie on the heart's rate or a multiple of it (mains alias, a fan, a
 * shaking bed) from a wave that follows the beats and has the harmonics a pulse has. Strong tones only: a weak one
 * looks like a rounded pulse.
 */
import { favoursTone } from "./presence-clock.js";
import type { BeatLines } from "./presence-lines.js";
import type { BeatGrid } from "./presence-phase.js";
import { genericTemplate, harmonicCount } from "./presence-template.js";

/**
 * The second to fourth harmonic, relative to the generic shape, that even a rounded wave brings along: 0.2;
 * the roundest marked channel, `red_ir`, has 0.58 of the second on average and less in some windows. Working default.
 */
const leastUpper = 0.2;
/** Below this a wave that does not show that it follows the beats stays in doubt. Working default. */
const surelyUpper = 0.4;
/** The first harmonic is at least this share of any other; `data2` and `data` have 0.81. Working default. */
const leastFirst = 0.75;
/** How far outside chance the missing part must lie, standard deviations. Working default. */
const deviations = 2.5;

/**
 * `favoursTone` above this is a tone by the clock; weak pulses with or without interval scatter stay below it in
 * 99 of 100 windows. Set on synthetic lines and pulses of 5 to 20 s.
 */
const byClock = 2.5;
/** Below this the wave follows the beats in more than one harmonic; the lowest seen on a lone tone is −12. */
const byBeats = -20;
/** Above this it does not show that it follows the beats. Working default. */
const doubtful = -5;

/**
 * - `tone`: it keeps to the clock where the beats do not, or lacks harmonics which any pulse as strong as its strongest
 *   harmonic would have brought
 * - `doubt`: almost a bare sine at beats too even or too few to tell; a very round pulse may look like this
 * - `wave`: neither
 */
export type ToneAnswer = "tone" | "doubt" | "wave";

/** @param blur standard deviation of the reference's timing in beats; with any, the clock proves nothing against a pulse */
export function toneOrWave(grid: BeatGrid, lines: BeatLines, blur: number): ToneAnswer {
  const odds = favoursTone(grid);
  if (odds < byBeats) return "wave";
  if ((odds > byClock && blur === 0) || lacksHarmonics(lines, blur, leastUpper)) return "tone";
  return odds > doubtful && lacksHarmonics(lines, blur, surelyUpper) ? "doubt" : "wave";
}

function lacksHarmonics(lines: BeatLines, blur: number, share: number): boolean {
  const size = (h: number) => Math.hypot(lines.re[h - 1]!, lines.im[h - 1]!);
  const shape = (h: number) => Math.hypot(genericTemplate.re[h - 1]!, genericTemplate.im[h - 1]!);
  const noise = (h: number) => lines.noise[h - 1]!;
  let expected = 0;
  let energy = 0;
  let dof = 0;
  for (let h = 2; h <= harmonicCount; h++) {
    const fade = Math.exp(-((2 * Math.PI * blur) ** 2 * (h * h - 1)) / 2);
    expected += (2 * (share * fade * shape(h) * (size(1) / shape(1))) ** 2) / noise(h);
    energy += (2 * size(h) ** 2) / noise(h);
    dof += 2;
    const spread = Math.sqrt((noise(1) + leastFirst ** 2 * noise(h)) / 2);
    if (leastFirst * size(h) - size(1) > deviations * spread) return true;
  }
  // Mean and variance of a non-central chi-square; Abramowitz and Stegun, 26.4.36.
  return energy < dof + expected - deviations * Math.sqrt(2 * (dof + 2 * expected));
}
