/**
 * Tells from upstrokes in a row that a lost pulse is back: two that are very alike and at the usual distance, or
 * three that could be pulses. What keeps no time and is no more than half the usual size is not taken for a chain.
 */
import type { UsualUpstroke } from "./usual-upstroke.js";

/** Upstrokes in a row that are a return, fewer if they are very alike and at the usual distance. */
const returning = 3;
const returningAlike = 2;
/**
 * Very alike: this correlation with the usual upstroke, or that of nearly all it was learned from if they differ more.
 * Of two in a row it is their mean that counts, and each must be nearly so.
 */
const veryAlike = 0.92;
const nearly = 0.04;
const leastAlike = 0.88;
/** An upstroke is the second wave of the one before if it is nearer than this share of the usual interval, or too near and this much smaller. */
const nearest = 0.4;
const smaller = 0.7;
/** How far their distances may be from the usual one, and how unlike their sizes may be. */
const near = 0.7;
const far = 1.4;
const farthest = 2.2;
const unlike = 3;
/** Below this share of the usual rise only the usual distance makes a link. */
const weak = 0.5;

export interface ReturnChain {
  /** Forgets what was seen: a new loss begins. */
  clear(): void;
  /**
   * Takes the next upstroke that could be a pulse.
   *
   * @param at   inner sample of its largest rise
   * @param rise channel units
   * @param like correlation with the usual upstroke
   * @returns inner sample of the chain's first upstroke if the pulse is back with this one, else -1
   */
  take(at: number, rise: number, like: number): number;
}

export function createReturnChain(usual: UsualUpstroke): ReturnChain {
  const s = { links: 0, strong: 0, first: 0, last: 0, lastRise: 0.5, lastLike: 0.5, low: 0.5, high: 0.5 };
  return {
    clear() {
      s.links = 0;
    },
    take(at, rise, like) {
      const enough = Math.max(leastAlike, Math.min(veryAlike, usual.alike));
      const isNearly = like >= enough - nearly;
      const distance = (at - s.last) / usual.interval;
      if (s.links > 0 && (distance < nearest || (distance < near && rise < smaller * s.lastRise))) return -1;
      const usualDistance = distance >= near && distance <= far;
      const inTime = usualDistance || (distance <= farthest && like >= enough && rise >= weak * usual.rise);
      if (!inTime) s.links = 0;
      if (s.links > 1 && Math.max(s.high, rise) > unlike * Math.min(s.low, rise)) {
        // A chain this one does not fit in may still begin with its last link: the first pulses are often deformed.
        s.links = 1;
        s.strong = Math.min(s.strong, 1);
        s.first = s.last;
        s.low = s.lastRise;
        s.high = s.lastRise;
      }
      if (s.links > 0 && Math.max(s.high, rise) > unlike * Math.min(s.low, rise)) s.links = 0;
      if (s.links === 0) {
        s.strong = 0;
        s.first = at;
        s.low = rise;
        s.high = rise;
      }
      const both = usualDistance && s.strong > 0 && like + s.lastLike >= 2 * enough;
      s.strong = !isNearly ? 0 : both ? s.strong + 1 : 1;
      s.links++;
      s.low = Math.min(s.low, rise);
      s.high = Math.max(s.high, rise);
      s.last = at;
      s.lastRise = rise;
      s.lastLike = like;
      return s.links >= returning || s.strong >= returningAlike ? s.first : -1;
    },
  };
}
