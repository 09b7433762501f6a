/** A cuff that goes up fast, stays, and is let down at an even rate: at what pressure does the pulse come back? */
import type { HeartControls } from "../controls/index.js";
import type { VesselPerson } from "../vessels/index.js";
import { limbBeats } from "./limb-beats.js";
import { evenHeart, runLimb } from "./limb-run.js";

export interface CuffCycle {
  /** mmHg per second. */
  readonly rate: number;
  readonly heart?: Partial<HeartControls>;
  readonly person?: Partial<VesselPerson>;
  /** Pulse that counts, percent. */
  readonly floor?: number;
  /** How many deflations, each begun at another moment of the beat. */
  readonly repeats?: number;
}

/** Cuff pressure at the first pulse back, less the systolic pressure above the cuff in that beat, mmHg. */
export function returnErrors({ rate, heart, person = {}, floor = 0.1, repeats = 6 }: CuffCycle): number[] {
  return Array.from({ length: repeats }, (_, n) => {
    const top = 150;
    const release = 28 + n * 0.13;
    const run = runLimb({
      seconds: release + (top - 80) / rate,
      quietTone: true,
      heart: { ...evenHeart, diastolic: 80, ...heart },
      person,
      turn: (time, site) => {
        site.cuff =
          time < 10 ? 0 : Math.max(0, Math.min(top, (time - 10) * 50, top - (time - release) * rate));
      },
    });
    const back = limbBeats(run).find((beat) => beat.r > release && beat.perfusionIndex > floor);
    if (back === undefined) throw new Error(`no pulse came back at ${rate} mmHg/s`);
    return back.cuff - back.systolic;
  });
}
