/**
 * One probe from samples to readings: runs the pulse engine, keeps the last stretch of samples, and
 * builds the reading of any stretch still kept. Live use and replay are this same code.
 */
import {
  type Beat,
  type Channel,
  hasLevel,
  type Loss,
  type Seconds,
  type Site,
  type Window,
} from "../model/index.js";
import { createPulseListener } from "../pulse/listener.js";
import type { Declared } from "./declared.js";
import { moved } from "./listen.js";
import { type Reference, readStretch, type Samples } from "./read-stretch.js";
import type { Reading } from "./reading.js";
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

export function createSiteListener(options: SiteListenerOptions, sink: SiteSink = {}): SiteListener {
  const { channel, site, keep = 60 } = options;
  const { rate, start, polarity } = channel;
  if (!(keep > 0)) throw new RangeError(`keep ${keep} s is not above 0`);
  const kept = new Float64Array(Math.ceil(keep * rate));
  const beats: Beat[] = [];
  const windows: Window[] = [];
  let taken = 0;

  const engine = createPulseListener(
    { rate, polarity, level: hasLevel(channel), ...pick(options) },
    {
      beat(found) {
        const beat = moved.beat(found, start);
        beats.push(beat);
        forget();
        sink.beat?.(beat);
      },
      window(found) {
        const window = moved.window(found, start);
        windows.push(window);
        sink.window?.(window);
      },
      loss: (found) => sink.loss?.(moved.loss(found, start)),
    },
  );

  function forget(): void {
    const oldest = start + taken / rate - keep;
    while (beats.length > 0 && beats[0]!.peak < oldest) beats.shift();
    while (windows.length > 0 && windows[0]!.to < oldest) windows.shift();
  }

  /** Kept samples from `from` to `to`, and the time of the first. */
  function keptSamples(from: number, to: number): Samples {
    const first = Math.max(0, taken - kept.length, Math.ceil((from - start) * rate));
    const last = Math.min(taken, Math.floor((to - start) * rate));
    const values = new Float64Array(Math.max(0, last - first));
    for (let i = 0; i < values.length; i++) values[i] = kept[(first + i) % kept.length]!;
    return { values, first: start + first / rate };
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
    reading(stretch) {
      const rWaves = stretch.reference?.kind === "ecg" ? stretch.reference.beats : null;
      const samples = keptSamples(stretch.from, stretch.to);
      return readStretch({ channel, site, windows, beats, samples, rWaves, ...stretch });
    },
  };
}

/** Only options that were given: an absent one keeps the engine's own default. */
function pick({ hop, rails }: SiteListenerOptions) {
  return { ...(hop === undefined ? {} : { hop }), ...(rails === undefined ? {} : { rails }) };
}
