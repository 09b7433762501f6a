/** Runs a heart and one limb under a plain Beer-Lambert light and keeps what the checks look at. */
import { type HeartControls, restingHeart, restingSite, type SiteControls } from "../controls/index.js";
import { createHeart } from "../heart/index.js";
import type { HeartBeat } from "../heart-now.js";
import { absorption } from "../light/absorption.js";
import { exp } from "../numbers/exponential.js";
import { createVessels, type Hand, type Place, type VesselPerson } from "../vessels/index.js";

export interface LimbRunOptions {
  readonly seconds: number;
  readonly place?: Place;
  readonly hand?: Hand;
  readonly person?: Partial<VesselPerson>;
  readonly heart?: Partial<HeartControls>;
  readonly site?: Partial<SiteControls>;
  readonly seed?: number;
  readonly dt?: number;
  /** Leaves the slow waves of vessel tone out, so that one beat is as the next. */
  readonly quietTone?: boolean;
  /** Called before each step with the time, s, to turn the controls. */
  readonly turn?: (time: number, site: SiteControls, heart: HeartControls) => void;
}

/** A heart whose beats are all alike: what is left of variation is the vessels' own. */
export const evenHeart: Partial<HeartControls> = { variability: 0, breathing: 0 };

export interface LimbRun {
  readonly dt: number;
  readonly beats: readonly HeartBeat[];
  /** One value a step: infrared and red light, pressures in mmHg, flows in ml/s. */
  readonly infrared: Float64Array;
  readonly upstream: Float64Array;
  readonly downstream: Float64Array;
  readonly digit: Float64Array;
  readonly venous: Float64Array;
  readonly saturation: Float64Array;
  readonly flow: Float64Array;
  readonly mainFlow: Float64Array;
  readonly collateralFlow: Float64Array;
  readonly muscle: Float64Array;
  readonly cuff: Float64Array;
}

export function runLimb(options: LimbRunOptions): LimbRun {
  const { seconds, dt = 0.002, seed = 1, place = "finger", hand = "one-artery", person = {} } = options;
  const heartControls = { ...restingHeart(), ...options.heart };
  const controls = { ...restingSite(), ...options.site };
  const beats: HeartBeat[] = [];
  const heart = createHeart({ seed, dt, controls: heartControls, onBeat: (beat) => beats.push(beat) });
  const seen = { ...heart.now };
  const vessels = createVessels({ place, hand, person, dt, heart: seen, controls });
  const count = Math.round(seconds / dt);
  const array = () => new Float64Array(count);
  const out = {
    dt,
    beats,
    infrared: array(),
    upstream: array(),
    downstream: array(),
    digit: array(),
    venous: array(),
    saturation: array(),
    flow: array(),
    mainFlow: array(),
    collateralFlow: array(),
    muscle: array(),
    cuff: array(),
  };
  const { now } = vessels;
  for (let n = 0; n < count; n++) {
    options.turn?.(n * dt, controls, heartControls);
    heart.step();
    Object.assign(seen, heart.now);
    if (options.quietTone === true) seen.toneWave = 0;
    vessels.step();
    const light = absorption("infrared", now.saturation) * now.arterialPath;
    out.infrared[n] = exp(-light - absorption("infrared", 0.7) * now.venousPath);
    out.upstream[n] = now.upstream;
    out.downstream[n] = now.downstream;
    out.digit[n] = now.digit;
    out.venous[n] = now.venous;
    out.saturation[n] = now.saturation;
    out.flow[n] = now.flowFraction;
    out.mainFlow[n] = now.mainFlow;
    out.collateralFlow[n] = now.collateralFlow;
    out.muscle[n] = now.muscleFraction;
    out.cuff[n] = controls.cuff;
  }
  return out;
}
