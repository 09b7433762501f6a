/** Beats of a limb that has been left alone until nothing changes any more. */
import { between, type LimbBeat, limbBeats } from "./limb-beats.js";
import { evenHeart, type LimbRunOptions, runLimb } from "./limb-run.js";

/** @param options as `runLimb`, with even beats and quiet tone; `heart` is laid over the even heart */
export function settledBeats(options: Partial<LimbRunOptions> = {}, wait = 40, seconds = 15): LimbBeat[] {
  const heart = { ...evenHeart, ...options.heart };
  const run = runLimb({ quietTone: true, ...options, heart, seconds: wait + seconds });
  return between(limbBeats(run), wait, wait + seconds);
}
