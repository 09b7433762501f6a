/** Two invented probes on one clock: raw light with pulses of stated size and delay, and noise. For tests and the accuracy run only. */
import type { Channel, Seconds, Site } from "../../model/index.js";
import { genericTemplate, type Template } from "../../pulse/presence-template.js";
import { makeNoise, type NoiseKind, type Random } from "../../pulse/testing/noise.js";
import { makePulses } from "../../pulse/testing/pulse-train.js";
import type { Declared } from "../declared.js";
import type { Reference } from "../read-stretch.js";
import type { Reading } from "../reading.js";
import { createSiteListener } from "../site-listener.js";
import { rawLight, undisturbed } from "./make-reading.js";

export interface ProbeRecipe {
  /** PI of the pulses, %; 0 for none. */
  readonly pi: number;
  readonly noise: NoiseKind;
  /** Spread of the noise as a PI, %. */
  readonly noisePi: number;
  /** Foot after the heart beat, s. */
  readonly delay: number;
  readonly shape: Template;
}

export const clearProbe: ProbeRecipe = {
  pi: 2,
  noise: "pink",
  noisePi: 0.05,
  delay: 0.2,
  shape: genericTemplate,
};

export const signalRate = 100;
export const signalSeconds = 30;
const level = 50_000;

/** Raw light at 100 samples/s over 30 s, falling in systole. */
export function makeLight(recipe: ProbeRecipe, hearts: readonly number[], random: Random): Float64Array {
  const count = signalRate * signalSeconds;
  const feet = hearts.map((heart) => heart + recipe.delay);
  const pulses = makePulses(count, signalRate, feet, recipe.shape, (recipe.pi * level) / 100);
  const noise = makeNoise(recipe.noise, count, signalRate, random);
  return Float64Array.from(pulses, (pulse, n) =>
    Math.round(level - pulse + (noise[n]! * recipe.noisePi * level) / 100),
  );
}

export interface Listened {
  readonly sound: Reading;
  readonly suspect: Reading;
}

/** Readings of the last 20 of 30 s of both probes; the suspect side is tested against the sound side's feet. */
export function listenBoth(
  sound: Float64Array,
  suspect: Float64Array,
  sites: { readonly sound: Site | null; readonly suspect: Site | null },
  options: { readonly channel?: Channel; readonly declared?: Declared } = {},
): Listened {
  const channel = options.channel ?? rawLight;
  const declared = options.declared ?? undisturbed;
  const listen = (values: Float64Array, site: Site | null) => {
    const listener = createSiteListener({ channel, site });
    listener.push(values);
    listener.end();
    return listener;
  };
  const one = listen(sound, sites.sound);
  const other = listen(suspect, sites.suspect);
  const stretch = { from: 10 as Seconds, to: 30 as Seconds, saturation: null, declared };
  const reference: Reference = { kind: "other-side", beats: one.feet() };
  return {
    sound: one.reading({ ...stretch, reference: null }),
    suspect: other.reading({ ...stretch, reference }),
  };
}
