/**
 * What the evidence of a stretch means: the rule ladder of the capture grade. Read it from the top;
 * the first rung that holds decides. Every limit is a working default of this project unless a
 * source is named; figures on the open recordings come from `scripts/accuracy/grade.ts`.
 */
import type { CaptureGrade, Reason, ReasonCode } from "../model/capture.js";
import { pulseLikeLimits, pulseLikeness } from "./quality-pulse-like.js";
import type { Rhythm } from "./quality-rhythm.js";
import type { Stir } from "./quality-stir.js";
import type { WindowEvidence } from "./quality-window.js";

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

/** What else is known when a stretch is graded. */
export interface CaptureContext {
  /** Smallest step of the raw samples so far. */
  readonly quantum: number;
  /** Size of the believable pulses of the last minute; NaN if there were none. */
  readonly pulseSize: number;
  /** Beats that were due in the stretch while the loss watch had lost the pulse; 0 if it had not. */
  readonly lostBeats: number;
  /** It has not come back yet: a stretch without fault is then its return. */
  readonly stillLost: boolean;
  /** The p of the periodicity test, 0 to 1; asked only before `none` is said. */
  readonly chance: () => number;
  /** How the trace moves, asked only if there are no beats to go by. */
  readonly rhythm: () => Rhythm;
  /** Evenness of the trace, asked only if there is no pulse. */
  readonly stir: () => Stir;
}

export interface CaptureJudgement {
  readonly capture: CaptureGrade;
  readonly reasons: readonly Reason[];
}

/**
 * Grades one stretch. Reasons are in order of gravity; none if solid.
 *
 * @param limits other than `captureLimits` only to score the choice of them
 */
export function gradeCapture(
  e: WindowEvidence,
  context: CaptureContext,
  limits: CaptureLimits = captureLimits,
): CaptureJudgement {
  const L = limits;
  const there = e.seconds - e.missing;
  const lost = context.lostBeats > 0 ? [reason("pulse-lost", context.lostBeats, "1", L.lostBeats)] : [];
  if (there <= 0.02 * e.seconds)
    return judged("unreadable", [reason("missing-samples", e.missing, "s", 0), ...lost]);
  // A coarse trace may stand still in pieces between its pulses.
  const pieces = e.longestFlat < L.hidden && pulsesLikely(e, L);
  if (e.flat >= L.offShare * there && !pieces)
    return judged("off", [reason("flat-line", e.flat, "s", L.flat), ...lost]);
  if (e.clipped >= L.offShare * there)
    return judged("off", [reason("at-rail", e.clipped, "s", L.clip), ...lost]);

  const objected = objections(e, L);
  if (objected.length === 0 && (context.stillLost || context.lostBeats <= L.lostBeats))
    return { capture: "solid", reasons: [] };
  if (e.missing + e.flat + e.clipped >= L.hidden) return judged("unreadable", [...hiding(e, L), ...lost]);
  const against = [...lost, ...objected];
  if (pulsesLikely(e, L)) return judged("shaky", against);
  if (e.steps + e.wraps > 0 || e.seconds < L.shortest) return judged("unreadable", against);
  return withoutBeats(e, context, against, L);
}

/** No pulses to go by: is there a wave without them, is something hidden, or is there nothing? */
function withoutBeats(
  e: WindowEvidence,
  context: CaptureContext,
  against: readonly Reason[],
  L: CaptureLimits,
): CaptureJudgement {
  const { share, slowShare, smooth, narrow } = context.rhythm();
  const stillness = howStill(e, context, L);
  const wanted = stillness === "stirred" ? L.clearRhythm : L.rhythm;
  if (share >= wanted && share > slowShare)
    return judged("shaky", [reason("weak-smooth-wave", share, "1", L.rhythm), ...against]);
  if (stillness === "stirred") return judged("unreadable", against);
  const tooSmooth = e.shapes.meanCorrelation >= L.nearlyLikely ? L.smoothIfAlike : L.smooth;
  if (stillness === "even" && smooth >= tooSmooth)
    return judged("unreadable", [reason("weak-smooth-wave", smooth, "1", tooSmooth), ...against]);
  if (stillness === "even" && narrow >= L.narrow)
    return judged("unreadable", [reason("busy-between-beats", narrow, "1", L.narrow), ...against]);
  const chance = context.chance();
  if (chance < L.chance)
    return judged("shaky", [reason("weak-smooth-wave", chance, "1", L.chance), ...against]);
  return judged("none", [noWave(e, L), ...against]);
}

/** All that keeps a stretch from being solid, gravest first. */
function objections(e: WindowEvidence, L: CaptureLimits): Reason[] {
  const s = e.shapes;
  const found: Reason[] = [];
  const hold = (code: ReasonCode, fine: boolean, value: number, unit: string, limit: number) => {
    if (!fine) found.push(reason(code, value, unit, limit));
  };
  const regular = e.intervalRatio <= L.intervalRatio && e.gap <= L.gap;
  hold("missing-samples", e.missing < L.flat, e.missing, "s", L.flat);
  hold("flat-line", e.longestFlat < L.flat, e.longestFlat, "s", L.flat);
  hold("level-step", e.steps + e.wraps === 0, e.steps + e.wraps, "1", 0);
  hold("at-rail", e.longestClip <= L.clip, e.longestClip, "s", L.clip);
  hold("too-short", e.seconds >= L.shortest, e.seconds, "s", L.shortest);
  hold("too-few-beats", s.count >= L.pulses && e.beats > 0, s.count, "1", L.pulses);
  if (found.some((r) => r.code === "too-few-beats")) return found;
  hold("beat-missing", e.gap <= (regular ? L.gap : L.unevenGap), e.gap, "1", L.unevenGap);
  hold(
    "rate-out-of-range",
    e.interval >= L.shortestInterval,
    60 / e.interval,
    "/min",
    60 / L.shortestInterval,
  );
  hold("rate-out-of-range", e.interval <= L.longestInterval, 60 / e.interval, "/min", 60 / L.longestInterval);
  hold("beats-differ", s.meanCorrelation >= L.mean, s.meanCorrelation, "1", L.mean);
  hold("beats-differ", s.minCorrelation >= L.min, s.minCorrelation, "1", L.min);
  hold("beats-differ", s.sizeRatio <= L.sizeRatio, s.sizeRatio, "1", L.sizeRatio);
  hold("level-step", s.baseMove <= L.baseMove, s.baseMove, "1", L.baseMove);
  hold("busy-between-beats", s.rest <= L.rest, s.rest, "1", L.rest);
  hold("busy-between-beats", s.cycles * Math.min(1, 1 / e.interval) <= L.cycles, s.cycles, "1", L.cycles);
  hold("weak-smooth-wave", s.crest <= L.crest, s.crest, "s", L.crest);
  const { fine, edge, limit } = pulseLikeness(e, L);
  hold("weak-smooth-wave", fine, edge, "1", limit);
  hold("busy-between-beats", s.cycles / e.interval <= L.swings, s.cycles / e.interval, "/s", L.swings);
  const alike =
    s.meanCorrelation >= L.unevenMean &&
    s.minCorrelation >= L.unevenMin &&
    s.rest <= L.unevenRest &&
    s.baseMove <= L.unevenBase;
  hold(
    "intervals-uneven",
    regular || (alike && (s.steepness >= L.unevenSteep || edge >= L.edgeIfEven)),
    e.intervalRatio,
    "1",
    L.intervalRatio,
  );
  return found;
}

function pulsesLikely(e: WindowEvidence, L: CaptureLimits): boolean {
  const { meanCorrelation, crest } = e.shapes;
  if (e.beats < 2 || crest > L.likelyCrest || e.interval > L.likelyInterval) return false;
  if (e.gap <= L.likelyGap && meanCorrelation >= L.likely) return true;
  return e.beats >= L.partBeats && meanCorrelation >= L.partAlike;
}

/** Steps between samples above this, or below its inverse, are beyond any converter, whatever its unit. */
const unmeasurable = 1e60;

/**
 * How little the trace moves: next to the pulses seen before or to the converter's step, only from one half
 * second to the next, or not at all little. Whether a wave of any use would show depends on it.
 */
function howStill(
  e: WindowEvidence,
  { quantum, pulseSize, stir }: CaptureContext,
  L: CaptureLimits,
): "small" | "even" | "stirred" {
  if (e.missing + e.flat + e.clipped >= L.flat) return "stirred";
  // No probe gives such numbers, and products of them leave the range of what can be computed: nothing was measured.
  if (quantum > unmeasurable || quantum < 1 / unmeasurable) return "stirred";
  const { quiet, median, upper, top, share } = stir();
  if (share >= L.stirred) return "stirred";
  if (!Number.isNaN(pulseSize)) {
    const small =
      median <= L.quietShare * pulseSize &&
      upper <= L.quietUpper * pulseSize &&
      top * quiet <= L.quietWidest * pulseSize;
    return small ? "small" : "stirred";
  }
  if (median <= L.quietCodes * quantum) return "small";
  return top <= L.quietTop ? "even" : "stirred";
}

function hiding(e: WindowEvidence, L: CaptureLimits): Reason[] {
  const found: Reason[] = [];
  if (e.missing > 0) found.push(reason("missing-samples", e.missing, "s", L.hidden));
  if (e.flat > 0) found.push(reason("flat-line", e.flat, "s", L.hidden));
  if (e.clipped > 0) found.push(reason("at-rail", e.clipped, "s", L.hidden));
  return found;
}

function noWave(e: WindowEvidence, L: CaptureLimits): Reason {
  const value = e.shapes.meanCorrelation;
  return reason("no-wave-at-heart-beat", Number.isNaN(value) ? null : value, "1", L.likely);
}

function reason(code: ReasonCode, value: number | null, unit: string, limit: number | null): Reason {
  return { code, value: value !== null && Number.isFinite(value) ? value : null, unit, limit };
}

/** One line per code: the first, which is the gravest. */
function judged(capture: CaptureGrade, reasons: readonly Reason[]): CaptureJudgement {
  return { capture, reasons: reasons.filter((r, i) => reasons.findIndex((q) => q.code === r.code) === i) };
}
