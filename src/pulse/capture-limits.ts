/**
 * The limits of the capture grade. Each is a working default of this project unless a source is named; figures on the
 * open recordings come from `scripts/accuracy/grade.ts`.
 */
import { pulseLikeLimits } from "./quality-pulse-like.js";

export const captureLimits = {
  /** Still for this share of the samples there are: no working probe. */
  offShare: 0.6,
  /** Seconds hidden by gaps, stillness and rails together that make a stretch unreadable. */
  hidden: 2,
  /** Stillness that a living trace never shows, s; engine notes, section D. */
  flat: 0.3,
  /** Longest clipped top that leaves the shape usable, s. */
  clip: 0.2,
  /** Shortest stretch that can be solid, s. */
  shortest: 2,
  /** Pulses compared at least. */
  pulses: 3,
  /** Intervals of a pulse that can be solid, s: 28 to 230 beats/min. */
  shortestInterval: 0.26,
  longestInterval: 2.15,
  /** Foot to top, s. 0.24 and 0.27 s are reported for narrowed leg arteries; a breath takes over 0.6 s. */
  crest: 0.35,
  ...pulseLikeLimits,
  /** Swings in an interval, or in a second of a longer one, at most; a hum found as beats has more. */
  cycles: 4.2,
  /** Swings in a second of any pulse at most, overtones included. */
  swings: 7,
  /** Move of the base between pulses, and largest over smallest pulse. */
  baseMove: 0.75,
  sizeRatio: 5,
  /** Regular rhythm: longest over shortest interval, longest silence over the median interval … */
  intervalRatio: 1.5,
  gap: 1.6,
  /** … and how alike its pulses are. */
  mean: 0.93,
  min: 0.7,
  rest: 0.42,
  /** Irregular rhythm: chance makes uneven intervals too, so the shapes must speak louder. */
  unevenGap: 3.3,
  unevenMean: 0.97,
  unevenMin: 0.93,
  unevenRest: 0.25,
  unevenBase: 0.5,
  /** Unless the shape is far from any sine, it must rise this much steeper than it falls. */
  unevenSteep: 1.3,
  /** Pulses likely: how alike, and the longest silence over the median interval. */
  likely: 0.6,
  likelyGap: 4.3,
  /** … however long the silence if at least so many pulses are so alike: a pulse that went away or came back. */
  partBeats: 3,
  partAlike: 0.92,
  /** A breath is not taken for a pulse: foot to top, and interval, s. */
  likelyCrest: 0.7,
  likelyInterval: 2.3,
  /** Still enough for `none`: range in codes of the converter, shares of the pulses seen before, widest over quietest. */
  quietCodes: 12,
  quietShare: 0.3,
  quietUpper: 0.5,
  quietWidest: 0.7,
  quietTop: 2.6,
  /** Next to the pulses seen before: upper quarter and widest of the ranges within half a second, shares of their size. */
  fadedUpper: 0.12,
  fadedTop: 0.5,
  fadedTiny: 0.08,
  /** … unless what was taken for beats is this alike, or a rhythm is this unlikely by chance. */
  fadedAlike: 0.8,
  fadedChance: 0.02,
  /** A rhythm this unlikely by chance forbids `none`: a weak smooth wave may be a pulse. */
  chance: 0.001,
  /** So does a wave and its overtones that explain this share of the movement, and more than a breath would … */
  rhythm: 0.7,
  /** … and where the trace is not still, this share makes pulses likely. */
  clearRhythm: 0.85,
  /** Where nothing else tells how small a trace is: so much below 4 Hz hides a wave, so much in a narrow band is a vibration. */
  smooth: 0.92,
  /** … or this much, if what was taken for beats is this alike. */
  smoothIfAlike: 0.85,
  nearlyLikely: 0.5,
  narrow: 0.5,
  /** Expected beats that may fail to come while the pulse is lost. */
  lostBeats: 3,
  /** Share of half seconds with bursts that hide what is there. */
  stirred: 0.45,
} as const;

export type CaptureLimits = { readonly [limit in keyof typeof captureLimits]: number };
