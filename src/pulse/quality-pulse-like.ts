/**
 * Whether the mean pulse of a stretch has the shape of a pulse, and not that of a hum, a breath or a hand that rubs.
 * Strokes of a hand can look like anything, but they differ from each other in size, in shape and in length at once,
 * while a heart's pulses differ in one of these or two; so the less even the pulses, the clearer their shape must be.
 */
import type { WindowEvidence } from "./quality-window.js";

/** Working defaults, set on strokes, on clean pulses and on the good windows of the open recordings. */
export const pulseLikeLimits = {
  /** Share of the shape no single sine explains, at least: of a shape that rises fast, … */
  edge: 0.045,
  /** … of one that rises as most pulses do, if its pulses are of even size, and if they are not, … */
  edgeIfEven: 0.12,
  edgeIfUsual: 0.13,
  /** … of one that takes a short part of its interval to rise, and of any. */
  edgeIfShort: 0.15,
  edgeIfRich: 0.2,
  /** Steepest rise over steepest fall: of a shape that rises fast, as most pulses do, hardly faster than it falls, and slower. */
  steep: 1.95,
  usual: 1.4,
  rising: 1.2,
  turned: 1.1,
  /** Foot to top over the interval: a short rise, and the longest of a pulse that rises at the usual pace. */
  shortRise: 0.2,
  longRise: 0.245,
  /** Change of size from pulse to pulse at most, root mean square of the logarithm: even, turned, uneven and wild. */
  evenSizes: 0.07,
  evenIfIrregular: 0.1,
  turnedSizes: 0.15,
  unevenSizes: 0.25,
  wildSizes: 0.37,
  /** Rest over pulse up to which pulses of even size are alike as well. */
  evenRest: 0.25,
  /** How much size, shape and length differ, geometric mean: 0.1 for most pulses, 0.2 and more for most strokes. */
  unlike: 0.165,
  /** Longest over shortest interval of an irregular rhythm: its pulses are uneven in length and a little in size, strokes seldom so uneven in length. */
  irregular: 1.5,
  /** Intervals, s, that leave a pulse no room for overtones, or let only its first half be seen. */
  crowded: 0.62,
  sparse: 1.2,
} as const;

export type PulseLikeLimits = { readonly [limit in keyof typeof pulseLikeLimits]: number };

/** What was found, and what it was held against. */
export interface PulseLikeness {
  readonly fine: boolean;
  /** Share of the shape no single sine explains, less what only chance put there. */
  readonly edge: number;
  readonly limit: number;
}

export function pulseLikeness(e: WindowEvidence, L: PulseLikeLimits): PulseLikeness {
  const { rest, count, steepness, sizeJump, crest } = e.shapes;
  // What the pulses do not share leaves its part in their mean and looks like an edge there: at least so much, at most all.
  const edge = e.shapes.edge - (rest * rest) / count;
  const ownEdge = e.shapes.edge - rest * rest;
  const rise = crest / e.interval;
  const unlike = Math.cbrt(sizeJump * rest * (e.intervalRatio - 1));

  const fast = steepness >= L.steep && edge >= L.edge;
  const irregular = e.intervalRatio >= L.irregular;
  const lenient = irregular || e.interval <= L.crowded || e.interval >= L.sparse;
  const even =
    sizeJump <= (irregular ? L.evenIfIrregular : L.evenSizes) &&
    rest <= L.evenRest &&
    (fast || edge >= L.edgeIfEven || (lenient && steepness >= L.rising && ownEdge >= L.edge));
  const usual = steepness >= L.usual && ownEdge >= L.edgeIfUsual && rise <= L.longRise;
  const calm = unlike <= L.unlike && sizeJump <= L.unevenSizes && (fast || usual);
  const rich = edge >= L.edgeIfRich && sizeJump <= (steepness < L.turned ? L.turnedSizes : L.wildSizes);
  const short =
    edge >= L.edgeIfShort && sizeJump <= L.wildSizes && steepness >= L.rising && rise <= L.shortRise;
  const limit = steepness >= L.steep ? L.edge : steepness >= L.usual ? L.edgeIfUsual : L.edgeIfRich;
  return { fine: even || calm || rich || short, edge, limit };
}
