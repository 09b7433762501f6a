/**
 * A probe on a made-up digit: a plain pulse of known size in the blood's path, without heart or vessels, so that
 * what the light does can be held against arithmetic.
 */
import { restingSite, type SiteControls } from "../controls/index.js";
import { absorption } from "../light/absorption.js";
import { lightConstants } from "../light/constants.js";
import { createProbe, type ProbeOptions, type ProbeState } from "../light/index.js";

export interface ProbeRunOptions extends Partial<Omit<ProbeOptions, "controls">> {
  readonly seconds: number;
  /** Beats a minute; 70 unless given. */
  readonly beats?: number;
  /** Height of the pulse as a perfusion index, %, infrared at saturation 0.97; 1.4 unless given, 0 for none. */
  readonly index?: number;
  /** 0 to 1; 0.97 unless given. */
  readonly saturation?: number;
  /** Cm; the resting path unless given. */
  readonly venousPath?: number;
  readonly set?: Partial<SiteControls>;
  /** Called before each sample, to turn controls. */
  readonly before?: (seconds: number, controls: SiteControls) => void;
  /** Pulses are let through only while this says so. */
  readonly open?: (seconds: number) => boolean;
  /** Each beat's interval is spread by this share, up to; 0.03 unless given. */
  readonly spread?: number;
}

export interface ProbeRun {
  readonly infrared: Float64Array;
  readonly red: Float64Array;
  readonly rate: number;
  readonly states: readonly Readonly<ProbeState>[];
}

/** Everything that disturbs, off: what is left is the light of the blood alone, in a bright lamp. */
export const undisturbed: Partial<SiteControls> = { ambient: 0, mains: 0, drift: 0, photocurrent: 500 };

/** Height of one pulse `t` seconds after its foot, 0 to 1: a fast rise, a slow fall, a second wave. */
function pulseShape(t: number): number {
  if (t < 0) return 0;
  const rise = t < 0.14 ? Math.sin((Math.PI / 2) * (t / 0.14)) ** 2 : 1;
  return rise * Math.exp(-Math.max(0, t - 0.14) / 0.28) + 0.1 * Math.exp(-(((t - 0.4) / 0.06) ** 2));
}

export function runProbe(options: ProbeRunOptions): ProbeRun {
  const { seconds, beats = 70, index = 1.4, saturation = 0.97, set, before, open, spread = 0.03 } = options;
  const { rate = 125, seed = 1, venousPath = lightConstants.restingVenousPath.value, ...rest } = options;
  const controls: SiteControls = { ...restingSite(), ...set };
  const probe = createProbe({ ...rest, seed, rate, controls });
  const height = (0.01 * index) / absorption("infrared", 0.97);
  const count = Math.round(seconds * rate);
  const infrared = new Float64Array(count);
  const red = new Float64Array(count);
  const states: ProbeState[] = [];
  const feet = [-1];
  while (feet.at(-1)! < seconds) {
    feet.push(feet.at(-1)! + (60 / beats) * (1 + spread * Math.sin(2.4 * feet.length)));
  }
  let beat = 0;
  for (let n = 0; n < count; n++) {
    const t = n / rate;
    while (feet[beat + 1]! <= t) beat++;
    before?.(t, controls);
    let pulse = 0;
    for (let b = Math.max(0, beat - 3); b <= beat; b++) {
      if (open?.(feet[b]!) ?? true) pulse += pulseShape(t - feet[b]!);
    }
    // The pulse reaches a finger some 0.15 s after ejection began.
    const ejected = t - feet[beat]! + 0.15;
    const path = lightConstants.restingArterialPath.value + height * (pulse - 0.35);
    probe.sample(path, venousPath, saturation, ejected % (60 / beats));
    infrared[n] = probe.infrared;
    red[n] = probe.red;
    states.push({ ...probe.state });
  }
  return { infrared, red, rate, states };
}

/** Perfusion index of a stretch taken as one beat, %. */
export function indexOf(values: Float64Array): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let sum = 0;
  for (const value of values) {
    low = Math.min(low, value);
    high = Math.max(high, value);
    sum += value;
  }
  return (100 * (high - low) * values.length) / sum;
}
