/** Accuracy of beat detection as data: on the marked recordings, by rate, and with settings chosen without the scored person. */
import { type BeatSettings, beatSettings } from "../../src/pulse/beat-settings.js";
import { detectBeats } from "./detect-beats.js";
import { addCounts, type BeatCount, type BeatMatch, f1, inMillis, matchBeats } from "./match-beats.js";
import { resample } from "./resample.js";
import { createRandom } from "./seeded-random.js";

/** What is scored: one channel with hand-marked beats; `MarkedRecording` of `recordings.ts` is one. */
export interface ScoredChannel {
  readonly name: string;
  readonly person: string;
  readonly values: Float64Array;
  /** Samples per second. */
  readonly rate: number;
  /** Marked systolic peaks and feet, s. */
  readonly peaks: readonly number[];
  readonly feet: readonly number[];
  readonly unreadable: readonly (readonly [number, number])[];
}

export interface BeatRow extends BeatCount {
  readonly name: string;
  readonly f1: number;
  /** Found minus marked, ms. */
  readonly peakError: { readonly mean: number; readonly sd: number } | null;
  readonly footError: { readonly mean: number; readonly sd: number } | null;
  readonly extraTimes: readonly number[];
  readonly missedTimes: readonly number[];
}

function scorePeaks(channel: ScoredChannel, settings: BeatSettings): BeatMatch {
  const found = detectBeats(channel.values, channel.rate, settings).map((beat) => beat.peak);
  return matchBeats(found, channel.peaks, channel.unreadable);
}

/** One row per channel with the shipped settings, and the pooled count. */
export function scoreBeats(channels: readonly ScoredChannel[], settings: BeatSettings = beatSettings) {
  const rows = channels.map((channel): BeatRow => {
    const beats = detectBeats(channel.values, channel.rate, settings);
    const peaks = matchBeats(
      beats.map((beat) => beat.peak),
      channel.peaks,
      channel.unreadable,
    );
    const feet = matchBeats(
      beats.flatMap((beat) => (beat.foot === null ? [] : [beat.foot])),
      channel.feet,
      channel.unreadable,
    );
    return {
      name: channel.name,
      hits: peaks.hits,
      extra: peaks.extra,
      missed: peaks.missed,
      f1: f1(peaks),
      peakError: inMillis(peaks.errors),
      footError: inMillis(feet.errors),
      extraTimes: peaks.extraTimes,
      missedTimes: peaks.missedTimes,
    };
  });
  const pooled = addCounts(rows);
  return { rows, pooled: { ...pooled, f1: f1(pooled) } };
}

export const scoredRates = [25, 50, 100, 125, 250, 500, 1000] as const;

/** Pooled and lowest F1 with every recording brought to each rate. */
export function scoreRates(channels: readonly ScoredChannel[], rates: readonly number[] = scoredRates) {
  return rates.map((rate) => {
    const { rows, pooled } = scoreBeats(
      channels.map((channel) => ({ ...channel, rate, values: resample(channel.values, channel.rate, rate) })),
    );
    const worst = rows.reduce((a, b) => (b.f1 < a.f1 ? b : a));
    return { rate, pooled: pooled.f1, worst: worst.f1, worstName: worst.name, rows };
  });
}

/** Every number of the settings, drawn from a wide range on both sides of what is physically sensible. */
const ranges: Readonly<Record<keyof BeatSettings, readonly [number, number]>> = {
  riseTime: [0.12, 0.22],
  wiggle: [0.02, 0.15],
  even: [0.25, 0.55],
  rhythm: [1, 4],
  slack: [0.1, 0.3],
  pause: [0.5, 1.5],
  memory: [4, 7],
  firstRepeat: [0.5, 0.7],
};

/** Settings drawn evenly from the ranges; the same ones each time. */
export function drawSettings(count: number, seed = 20): readonly BeatSettings[] {
  const random = createRandom(seed);
  return Array.from({ length: count }, () => {
    const drawn: Record<string, number> = {};
    for (const [name, [low, high]] of Object.entries(ranges)) drawn[name] = low + (high - low) * random();
    return drawn as unknown as BeatSettings;
  });
}

/** The settings whose every number is the mean over some. */
function meanSettings(some: readonly BeatSettings[]): BeatSettings {
  const mean: Record<string, number> = {};
  for (const name of Object.keys(ranges) as (keyof BeatSettings)[]) {
    mean[name] = some.reduce((sum, settings) => sum + settings[name], 0) / some.length;
  }
  return mean as unknown as BeatSettings;
}

export interface LeftOut {
  readonly rows: readonly (BeatCount & {
    readonly name: string;
    readonly person: string;
    readonly f1: number;
  })[];
  readonly pooled: BeatCount & { readonly f1: number };
  readonly worst: number;
}

/**
 * What to expect on people the settings have never seen. For each person the drawn settings are ranked by pooled F1 on
 * all other people; the mean of the `best` first, then, is scored on that person. With `best` = 1 the
 * single winner is taken, which follows the luck of the draw more.
 *
 * @returns the left-out score for each number in `bests`, and how pooled F1 spreads over all drawn settings
 */
export function scoreLeftOut(
  channels: readonly ScoredChannel[],
  count = 200,
  bests: readonly number[] = [1, 20],
) {
  const drawn = drawSettings(count);
  const table = drawn.map((settings) => channels.map((channel) => scorePeaks(channel, settings)));
  const people = [...new Set(channels.map((channel) => channel.person))];
  const scored = bests.map((best) => {
    const rows = people.flatMap((person) => {
      const pooled = table.map((row) => f1(addCounts(row.filter((_, i) => channels[i]!.person !== person))));
      const ranked = drawn.map((_, i) => i).sort((a, b) => pooled[b]! - pooled[a]! || a - b);
      const settings = meanSettings(ranked.slice(0, best).map((i) => drawn[i]!));
      return channels.flatMap((channel) => {
        if (channel.person !== person) return [];
        const { hits, extra, missed } = scorePeaks(channel, settings);
        return [{ name: channel.name, person, hits, extra, missed, f1: f1({ hits, extra, missed }) }];
      });
    });
    const pooled = addCounts(rows);
    const leftOut: LeftOut = {
      rows,
      pooled: { ...pooled, f1: f1(pooled) },
      worst: Math.min(...rows.map((row) => row.f1)),
    };
    return { best, ...leftOut };
  });
  const all = table.map((row) => f1(addCounts(row))).sort((a, b) => a - b);
  return { scored, drawnPooled: { lowest: all[0]!, median: all[all.length >> 1]!, highest: all.at(-1)! } };
}
