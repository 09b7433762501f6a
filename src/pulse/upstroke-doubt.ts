/**
 * Whether an upstroke is a pulse beyond doubt, and how long one in doubt may keep the loss watch waiting. An upstroke
 * in doubt may be the edge of what took the pulse away, half a pulse, or what is left of one.
 */
import type { UsualUpstroke } from "./usual-upstroke.js";

/** So alike, or nearly as alike as usual, and of about the usual size: beyond doubt. */
const alike = 0.95;
const lessAlike = 0.1;
const least = 0.5;
const greatest = 2;
/** Also at a size farther off, as with deep breaths and early beats, if it is this alike or as alike as usual. */
const veryAlike = 0.98;
const leastAlike = 0.3;
const greatestAlike = 3;
/**
 * One in doubt counts for this share of the usual patience, but for no longer than up to so many usual intervals after
 * the last pulse beyond doubt, and for so many of the longest intervals at least.
 */
const patienceShare = 0.66;
const intervalsInAll = 2.65;
const longestIntervals = 1.2;
/** Where the usual upstrokes themselves are less alike than this, doubt says little and counts for less. */
const uneven = 0.85;
const unevenShare = 0.8;

/**
 * @param rise channel units
 * @param like correlation with the usual upstroke
 */
export function isBeyondDoubt(usual: UsualUpstroke, rise: number, like: number): boolean {
  const size = rise / usual.rise;
  if (size < leastAlike || size > greatestAlike) return false;
  if (like >= Math.min(veryAlike, usual.alike)) return true;
  return like >= Math.min(alike, usual.alike - lessAlike) && size >= least && size <= greatest;
}

/**
 * Silence after an upstroke in doubt that is a loss, inner samples.
 *
 * @param sinceCertain from the last pulse beyond doubt to this upstroke, inner samples
 */
export function patienceInDoubt(usual: UsualUpstroke, sinceCertain: number): number {
  if (usual.alike < uneven) return unevenShare * usual.patience;
  const toEnd = intervalsInAll * usual.interval - sinceCertain;
  return Math.min(patienceShare * usual.patience, Math.max(longestIntervals * usual.longest, toEnd));
}
