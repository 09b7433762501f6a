/** The first beat that an oximeter would miss while something is made worse and worse. */
import { type LimbBeat, limbBeats } from "./limb-beats.js";
import { evenHeart, type LimbRunOptions, runLimb } from "./limb-run.js";

/** Pulse below which it counts as lost, percent: working default for the oximeters of 1990. */
export const lostBelow = 0.15;
/** Seconds of rest before it begins. */
export const restBefore = 20;

export function firstLost(options: LimbRunOptions): LimbBeat {
  const heart = { ...evenHeart, ...options.heart };
  const beats = limbBeats(runLimb({ quietTone: true, ...options, heart }));
  const lost = beats.find((beat) => beat.r > restBefore && beat.perfusionIndex < lostBelow);
  if (lost === undefined) throw new Error("the pulse was never lost");
  return lost;
}
