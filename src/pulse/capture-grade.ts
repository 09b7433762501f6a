/**
 * What the evidence of a stretch means: the rule ladder of the capture grade. Read it from the top;
 * the first rung that holds decides.
 */
import type { Reason, ReasonCode } from "../model/capture.js";
import { type CaptureContext, hasFaded, noWave, withoutBeats } from "./capture-absence.js";
import { type CaptureJudgement, judged, reason } from "./capture-judgement.js";
import { type CaptureLimits, captureLimits } from "./capture-limits.js";
import { pulseLikeness } from "./quality-pulse-like.js";
import type { WindowEvidence } from "./quality-window.js";

export type { CaptureContext } from "./capture-absence.js";
export { type CaptureLimits, captureLimits } from "./capture-limits.js";

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
  if (hasFaded(e, context, L)) return judged("none", [noWave(e, L), ...against]);
  if (pulsesLikely(e, L)) return judged("shaky", against);
  if (e.steps + e.wraps > 0 || e.seconds < L.shortest) return judged("unreadable", against);
  return withoutBeats(e, context, against, L);
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

function hiding(e: WindowEvidence, L: CaptureLimits): Reason[] {
  const found: Reason[] = [];
  if (e.missing > 0) found.push(reason("missing-samples", e.missing, "s", L.hidden));
  if (e.flat > 0) found.push(reason("flat-line", e.flat, "s", L.hidden));
  if (e.clipped > 0) found.push(reason("at-rail", e.clipped, "s", L.hidden));
  return found;
}
