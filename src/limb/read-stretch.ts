/** The reading of a stretch from its samples, beats and graded windows; live use and replay both come here. */
import {
  type Beat,
  type Channel,
  hasLevel,
  type Presence,
  type Seconds,
  type Site,
  type Window,
} from "../model/index.js";
import { testAlone } from "../pulse/presence-alone.js";
import { type DelayPrior, ecgDelay, testWithReference } from "../pulse/presence-reference.js";
import type { Declared } from "./declared.js";
import { type Reading, takeReading } from "./reading.js";
import type { SaturationNumber } from "./saturation.js";
import { usualBeat } from "./usual-beat.js";

/** Beats of something that surely follows the heart, on the same clock. A rate alone is no reference. */
export interface Reference {
  readonly kind: "ecg" | "other-side" | "taps";
  /** Record time: R waves, feet of the other side's pulses, or taps. */
  readonly beats: readonly Seconds[];
}

/** Samples in order, channel units, NaN where missing; `first` is the record time of the first. */
export interface Samples {
  readonly values: Float64Array;
  readonly first: number;
}

export interface StretchInput {
  readonly channel: Channel;
  readonly site: Site | null;
  readonly from: Seconds;
  readonly to: Seconds;
  readonly samples: Samples;
  /** Of the stretch at least; what lies outside is left out. */
  readonly windows: readonly Window[];
  readonly beats: readonly Beat[];
  readonly reference: Reference | null;
  /** R waves on the same clock, for the arrival time; may be there beside another reference. */
  readonly rWaves: readonly Seconds[] | null;
  readonly saturation: readonly SaturationNumber[] | null;
  readonly declared: Declared;
}

/** Scatter of taps and of a tone heard, seconds; engine notes put 50 ms to it. */
const tapJitter = 0.05;

/**
 * Delay from reference beat to foot. A wave that comes by collaterals alone is over 0.1 s late, so the other side's
 * range reaches to 0.3 s. Taps follow or foresee the beat by nobody knows how much.
 */
const priors: { readonly [kind in Reference["kind"]]: DelayPrior } = {
  ecg: ecgDelay,
  "other-side": { from: -0.1, to: 0.3 },
  taps: { from: -0.3, to: 0.5 },
};

/** Slower channels hold too few samples a beat for the periodicity test. */
const slowest = 20;

export function readStretch(input: StretchInput): Reading {
  const { channel, samples, reference, ...rest } = input;
  const { values, first } = samples;
  const upright = uprightOf(channel, values);
  const level = hasLevel(channel) ? meanLevel(values) : null;
  const feet = rest.beats.flatMap(({ foot }) =>
    foot !== null && foot >= rest.from && foot <= rest.to ? [foot] : [],
  );
  const trace = { values: upright, rate: channel.rate, start: first as Seconds };
  return takeReading({
    ...rest,
    trace,
    channel,
    level,
    presence: presenceAt(channel, samples, reference),
    shape: usualBeat(upright, channel.rate, first as Seconds, feet),
  });
}

/** The test for a wave in samples, against a reference where there is one. */
export function presenceAt(
  channel: Channel,
  { values, first }: Samples,
  by: Reference | null,
): Presence | null {
  const { rate } = channel;
  const upright = uprightOf(channel, values);
  if (by === null) return rate < slowest ? null : testAlone({ values: upright, rate }).presence;
  const level = hasLevel(channel) ? meanLevel(values) : null;
  return testWithReference({
    values: upright,
    rate,
    // Marks up to two seconds outside the stretch help at its ends.
    referenceBeats: by.beats.filter((beat) => beat >= first - 2).map((beat) => beat - first),
    delay: priors[by.kind],
    jitter: by.kind === "taps" ? tapJitter : 0,
    ...(level === null ? {} : { level }),
  });
}

/** Systole up. */
function uprightOf(channel: Channel, values: Float64Array): Float64Array {
  return channel.polarity === "systole-down" ? values.map((x) => -x) : values;
}

/** Mean light of the samples that are there; `null` without a level above 0. */
function meanLevel(values: Float64Array): number | null {
  let sum = 0;
  let count = 0;
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    sum += value;
    count++;
  }
  return sum > 0 ? sum / count : null;
}
