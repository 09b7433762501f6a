/**
 * A stretch without pulses to go by: is there a wave without them, could something hide, or is there nothing?
 * `none` is said only where a pulse of any use would show (S5).
 */

import type { Reason } from "../model/capture.js";
import { type CaptureJudgement, judged, reason } from "./capture-judgement.js";
import type { CaptureLimits } from "./capture-limits.js";
import type { Rhythm } from "./quality-rhythm.js";
import type { Stir } from "./quality-stir.js";
import type { WindowEvidence } from "./quality-window.js";

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

/** No pulses to go by: is there a wave without them, is something hidden, or is there nothing? */
export function withoutBeats(
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
  const least = leastChance(context, L);
  if (chance < least) return judged("shaky", [reason("weak-smooth-wave", chance, "1", least), ...against]);
  return judged("none", [noWave(e, L), ...against]);
}

/**
 * Pulses were seen before, and any that hides now would be small next to them: the rise of a pulse fits into half a
 * second, so the upper quarter of such pieces limits its height. Then chance likeness of what was taken for beats says
 * nothing, but a rhythm does, and so does a pulse's own shape.
 */
export function hasFaded(e: WindowEvidence, context: CaptureContext, L: CaptureLimits): boolean {
  const { pulseSize } = context;
  if (Number.isNaN(pulseSize) || e.steps + e.wraps > 0 || e.seconds < L.shortest) return false;
  if (e.missing + e.flat + e.clipped >= L.flat) return false;
  const { quiet, upper, top } = context.stir();
  if (upper > L.fadedUpper * pulseSize || top * quiet > L.fadedTop * pulseSize) return false;
  if (e.shapes.meanCorrelation >= L.fadedAlike && e.shapes.crest <= L.crest) return false;
  return context.chance() >= leastChance(context, L);
}

/** A rhythm less likely by chance than this forbids `none`; the more so where a pulse of some size could hide. */
function leastChance({ pulseSize, stir }: CaptureContext, L: CaptureLimits): number {
  return stir().upper > L.fadedTiny * pulseSize ? L.fadedChance : L.chance;
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

export function noWave(e: WindowEvidence, L: CaptureLimits): Reason {
  const value = e.shapes.meanCorrelation;
  return reason("no-wave-at-heart-beat", Number.isNaN(value) ? null : value, "1", L.likely);
}
