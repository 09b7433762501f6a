/**
 * Is there a pulse wave at the beats of a reference: ECG, the other side, taps or a pulse tone?
 * Needs the times of single beats; a rate alone locks to any rhythm nearby and is not accepted.
 */
import type { Percent, Presence, Seconds } from "../model/index.js";
import { slides } from "./presence-drift.js";
import { beatLines, fewestBeats } from "./presence-lines.js";
import { largestHidden, type Match, matchFamily, matchTemplate } from "./presence-match.js";
import { layBeats } from "./presence-phase.js";
import { limitTemplates, soughtTemplates } from "./presence-template.js";
import { toneOrWave } from "./presence-tone.js";

/** Where the foot may lie after the reference beat, s. Negative when the reference is the later one. */
export type DelayPrior = { readonly known: number } | { readonly from: number; readonly to: number };

/**
 * Foot after R wave: 0.05 s is faster than any pulse, 0.9 s leaves room for the delay monitors add between ECG
 * and pleth (0.38 to 0.64 s R to peak in `data/`). Common practice, no source.
 */
export const ecgDelay: DelayPrior = { from: 0.05, to: 0.9 };
/** Foot at one site after the foot at the other: ±0.1 s covers finger, ear and toe. Common practice, no source. */
export const otherSideDelay: DelayPrior = { from: -0.1, to: 0.1 };

export interface ReferenceTest {
  /** Samples of the window, systole upwards (turn raw light over first), NaN where missing; any unit. */
  readonly values: ArrayLike<number>;
  /** Samples per second, 25 to 1000. */
  readonly rate: number;
  /** Seconds from the first sample. Marks up to two seconds outside the window help at its ends. */
  readonly referenceBeats: readonly number[];
  readonly delay: DelayPrior;
  /** Standard deviation of the reference's own timing, s: about 0.05 for taps, 0 for ECG and the other side. */
  readonly jitter?: number;
  /** Mean light level of the window in the unit of `values`; given for raw light only (S3). */
  readonly level?: number;
  /**
   * Smallest wave, peak to peak in the unit of `values`, that the test must be able to see before it may
   * say `not-found`; without it the number of beats decides alone.
   */
  readonly mustSee?: number;
}

/** Decision levels: design.md section 5. */
const foundBelow = 0.001;
const likelyBelow = 0.01;
/** Fewest whole beats on which `not-found` may rest; working default. */
const beatsForNotFound = 6;
/**
 * Below this cosine with the nearest of four shapes the wave is not an upright pulse. Full-size windows of the marked
 * channels lie at 0.88 or above, the same windows turned upside down at 0.79 or below; set after seeing this.
 */
const leastLikeness = 0.8;
const nothing: Presence = {
  answer: "cannot-tell",
  p: 1,
  amplitude: null,
  upperLimit: null,
  upperLimitIndex: null,
  delay: null,
  reference: true,
};

/**
 * Tests a window against a reference.
 *
 * Answers: `found` at p < 0.001 with delay and shape plausible; `likely` at p < 0.01, or when something in step
 * with the heart has an implausible delay or shape (movement in step with the heart cannot be told from a pulse) or is
 * almost a bare sine at very even beats; `cannot-tell` with p raised to 1 when the wave rather runs by the clock or
 * slides along the reference; `not-found` with an upper limit when at least six whole beats were seen and nothing came; else `cannot-tell`.
 *
 * @throws {RangeError} unless rate > 0, and from ≤ to
 */
export function testWithReference(test: ReferenceTest): Presence {
  const from = "known" in test.delay ? test.delay.known : test.delay.from;
  const to = "known" in test.delay ? test.delay.known : test.delay.to;
  if (!(test.rate > 0 && Number.isFinite(test.rate)))
    throw new RangeError(`rate ${test.rate} is not above 0`);
  if (!(from <= to)) throw new RangeError(`delay from ${from} to ${to} s`);
  // Laid out at the middle of the allowed delays, beats of uneven length keep the pulse in one phase.
  const middle = (from + to) / 2;
  const grid = layBeats(
    test.values,
    test.rate,
    test.referenceBeats.map((beat) => beat + middle),
  );
  if (grid === null || grid.beats < fewestBeats) return nothing;
  const lines = beatLines(grid);
  const blur = (test.jitter ?? 0) / grid.interval;
  const reach = (to - from) / 2 / grid.interval;
  // A delay that strays in beats blurs what is laid out at the middle of the range.
  const stray = Math.hypot(blur, reach * grid.scatter);
  const fits: Match[] = [];
  for (const shape of limitTemplates) {
    const fit = matchTemplate(lines, shape, stray, -reach, reach);
    if (fit === null) return nothing;
    fits.push(fit);
  }
  const match = matchFamily(lines, soughtTemplates, blur, -reach, reach)!;
  const closest = fits.reduce((best, fit) => (fit.likeness > best.likeness ? fit : best));
  const anywhere = matchFamily(lines, soughtTemplates, blur, -0.5, 0.5)!;
  const hidden = Math.max(...fits.map((fit) => largestHidden(fit, 0.95)));
  const hasPower = grid.beats >= beatsForNotFound && !(hidden > (test.mustSee ?? Number.POSITIVE_INFINITY));
  const claimed = match.p < likelyBelow || anywhere.p < foundBelow;
  const kind = !claimed ? "wave" : slides(grid, lines) ? "tone" : toneOrWave(grid, lines, blur);
  const like = closest.likeness >= leastLikeness && kind === "wave";
  const answer = kind === "tone" ? "cannot-tell" : answerOf(match.p, like, anywhere.p, hasPower);
  const seen = answer === "found" || answer === "likely";
  const shown = match.p < likelyBelow ? closest : anywhere;
  const half = 1.96 * shown.sizeError;
  const index = test.level !== undefined && test.level > 0 ? (100 * hidden) / test.level : null;
  return {
    answer,
    p: kind === "tone" ? 1 : match.p,
    amplitude: seen
      ? { value: shown.size, low: Math.max(0, shown.size - half), high: shown.size + half }
      : null,
    upperLimit: hidden,
    upperLimitIndex: index as Percent | null,
    delay: seen ? ((middle + shown.phase * grid.interval) as Seconds) : null,
    reference: true,
  };
}

/** @param like whether the wave has the looks of a pulse */
function answerOf(p: number, like: boolean, anywhere: number, hasPower: boolean): Presence["answer"] {
  if (p < likelyBelow) return p < foundBelow && like ? "found" : "likely";
  // Something in step with the heart, but at a delay no pulse has.
  if (anywhere < foundBelow) return "likely";
  return hasPower ? "not-found" : "cannot-tell";
}
