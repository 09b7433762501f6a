/**
 * One probe from samples to readings: runs the pulse engine, keeps the last stretch of samples, and
 * builds the reading of any stretch still kept. Live use and replay are this same code.
 */
import {
  type Beat,
  type Channel,
  hasLevel,
  type Loss,
  type Presence,
  type Seconds,
  type Site,
  type Window,
} from "../model/index.js";
import { createPulseListener } from "../pulse/listener.js";
import { testAlone } from "../pulse/presence-alone.js";
import { type DelayPrior, ecgDelay, otherSideDelay, testWithReference } from "../pulse/presence-reference.js";
import type { Declared } from "./declared.js";
import { type Reading, takeReading } from "./reading.js";
import type { SaturationNumber } from "./saturation.js";

export interface SiteListenerOptions {
  readonly channel: Channel;
  readonly site: Site | null;
  /** Seconds of samples, beats and windows kept for readings, above 0; default 60. */
  readonly keep?: number;
  /** Seconds from window to window, above 0 to 5; default 5. */
  readonly hop?: number;
  /** Lowest and highest value the source can give, where known. */
  readonly rails?: { readonly low: number; readonly high: number };
}

/** Beats of something that surely follows the heart, on the same clock. A rate alone is no reference. */
export interface Reference {
  readonly kind: "ecg" | "other-side" | "taps";
  /** Record time: R waves, feet of the other side's pulses, or taps. */
  readonly beats: readonly Seconds[];
}

export interface StretchOptions {
  readonly from: Seconds;
  readonly to: Seconds;
  readonly reference: Reference | null;
  /** SpO2 numbers of the source, in order. */
  readonly saturation: readonly SaturationNumber[] | null;
  readonly declared: Declared;
}

/** What is told while it happens, in record time. */
export interface SiteSink {
  beat?(beat: Beat): void;
  window?(window: Window): void;
  loss?(loss: Loss): void;
}

export interface SiteListener {
  /** Takes the next samples, channel units; NaN = missing. */
  push(values: Float64Array): void;
  /** Decides what is pending. */
  end(): void;
  /** The reading of a stretch; only what is still kept, and already graded, counts. */
  reading(stretch: StretchOptions): Reading;
  /** Feet of the kept beats, as a reference for another site. */
  feet(): Seconds[];
}

/** Scatter of taps and of a tone heard, seconds; engine notes put 50 ms to it. */
const tapJitter = 0.05;

/** Delay from reference beat to foot. Taps follow or foresee the beat by nobody knows how much. */
const priors: { readonly [kind in Reference["kind"]]: DelayPrior } = {
  ecg: ecgDelay,
  "other-side": otherSideDelay,
  taps: { from: -0.3, to: 0.5 },
};

export function createSiteListener(options: SiteListenerOptions, sink: SiteSink = {}): SiteListener {
  const { channel, site, keep = 60 } = options;
  const { rate, start, polarity } = channel;
  if (!(keep > 0)) throw new RangeError(`keep ${keep} s is not above 0`);
  const kept = new Float64Array(Math.ceil(keep * rate));
  const beats: Beat[] = [];
  const windows: Window[] = [];
  let taken = 0;

  const shift = <T extends number | null>(time: T): T => (time === null ? time : ((time + start) as T));
  const engine = createPulseListener(
    { rate, polarity, level: hasLevel(channel), ...pick(options) },
    {
      beat(found) {
        const beat = {
          ...found,
          foot: shift(found.foot),
          peak: shift(found.peak),
          notch: shift(found.notch),
        };
        beats.push(beat);
        forget();
        sink.beat?.(beat);
      },
      window(found) {
        const window = { ...found, from: shift(found.from), to: shift(found.to) };
        windows.push(window);
        sink.window?.(window);
      },
      loss(found) {
        sink.loss?.({
          from: shift(found.from),
          seen: shift(found.seen),
          back: shift(found.back),
          backSeen: shift(found.backSeen),
        });
      },
    },
  );

  function forget(): void {
    const oldest = start + taken / rate - keep;
    while (beats.length > 0 && beats[0]!.peak < oldest) beats.shift();
    while (windows.length > 0 && windows[0]!.to < oldest) windows.shift();
  }

  /** Kept samples from `from` to `to`, and the time of the first. */
  function samples(from: number, to: number): { readonly values: Float64Array; readonly first: number } {
    const first = Math.max(0, taken - kept.length, Math.ceil((from - start) * rate));
    const last = Math.min(taken, Math.floor((to - start) * rate));
    const values = new Float64Array(Math.max(0, last - first));
    for (let i = 0; i < values.length; i++) values[i] = kept[(first + i) % kept.length]!;
    return { values, first: start + first / rate };
  }

  function presenceOf(
    values: Float64Array,
    first: number,
    level: number | null,
    by: Reference | null,
  ): Presence {
    const upright = polarity === "systole-down" ? values.map((x) => -x) : values;
    if (by === null) return testAlone({ values: upright, rate }).presence;
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

  return {
    push(values) {
      for (const value of values) {
        kept[taken % kept.length] = value;
        taken++;
      }
      engine.push(values);
    },
    end: () => engine.end(),
    feet: () => beats.flatMap((beat) => (beat.foot === null ? [] : [beat.foot])),
    reading({ from, to, reference, saturation, declared }) {
      const { values, first } = samples(from, to);
      const level = hasLevel(channel) ? meanLevel(values) : null;
      return takeReading({
        site,
        channel,
        from,
        to,
        windows,
        beats,
        presence: rate >= 20 || reference !== null ? presenceOf(values, first, level, reference) : null,
        level,
        rWaves: reference?.kind === "ecg" ? reference.beats : null,
        shape: null,
        saturation,
        declared,
      });
    },
  };
}

/** Only options that were given: an absent one keeps the engine's own default. */
function pick({ hop, rails }: SiteListenerOptions) {
  return { ...(hop === undefined ? {} : { hop }), ...(rails === undefined ? {} : { rails }) };
}

function meanLevel(values: Float64Array): number | null {
  let sum = 0;
  let count = 0;
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    sum += value;
    count++;
  }
  return count > 0 && sum > 0 ? sum / count : null;
}
