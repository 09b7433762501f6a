/** Presence on the marked recordings: as they are, with the pulse taken out, and with it put back smaller. */
import { testAlone } from "../../src/pulse/presence-alone.js";
import { ecgDelay, otherSideDelay, testWithReference } from "../../src/pulse/presence-reference.js";
import { createRandom, type Random } from "../../src/pulse/testing/noise.js";
import { makeBeats } from "../../src/pulse/testing/pulse-train.js";
import { pulsePart, randomisePhases } from "../../src/pulse/testing/surrogate.js";
import { type Share, share } from "./presence-share.js";

/** One pleth channel with its marks, times in seconds from its first sample; systole upwards. */
export interface MarkedChannel {
  readonly name: string;
  /** NaN where missing. */
  readonly values: Float64Array;
  readonly rate: number;
  readonly feet: readonly number[];
  /** Empty without ECG. */
  readonly rWaves: readonly number[];
  readonly unreadable: readonly { readonly from: number; readonly to: number }[];
  readonly windows: readonly { readonly from: number; readonly to: number; readonly label: string }[];
}

export const fractions = [1, 1 / 2, 1 / 4, 1 / 8, 1 / 16, 1 / 32, 1 / 64, 0] as const;

export type NullKind = "own beats" | "unrelated beats";

export interface NullRow {
  readonly name: string;
  readonly seconds: number;
  readonly beats: NullKind;
  readonly randomised: boolean;
  readonly atOnePercent: Share;
  readonly atOnePerMille: Share;
}

export interface PutBackRow {
  readonly name: string;
  readonly seconds: number;
  readonly reference: "R waves" | "feet of the other marks";
  readonly fraction: number;
  readonly likely: Share;
  readonly found: Share;
}

interface Cut {
  readonly rest: Float64Array;
  readonly pulse: Float64Array;
  readonly start: number;
}

/** Clean windows of a channel, half overlapping: what is left without the pulse, and the pulse. */
function* cuts(channel: MarkedChannel, seconds: number, random: Random | null): Generator<Cut> {
  const { values, rate } = channel;
  const pulse = pulsePart(values, rate, channel.feet);
  const rest = values.map((x, n) => x - pulse[n]!);
  const length = Math.round(seconds * rate);
  const size = random === null ? length : 2 ** Math.ceil(Math.log2(1.2 * length));
  const margin = (size - length) >> 1;
  for (let at = 0; at + size <= values.length; at += length >> 1) {
    const from = at / rate;
    const to = (at + size) / rate;
    if (channel.unreadable.some((span) => span.from < to && span.to > from)) continue;
    const piece = rest.slice(at, at + size);
    if (!piece.every(Number.isFinite)) continue;
    const made = random === null ? piece : randomisePhases(piece, random).slice(margin, margin + length);
    yield {
      rest: made,
      pulse: pulse.slice(at + margin, at + margin + length),
      start: (at + margin) / rate,
    };
  }
}

const near = (beats: readonly number[], start: number, seconds: number) =>
  beats.map((beat) => beat - start).filter((beat) => beat > -2 && beat < seconds + 2);

/** Recordings with the pulse taken out: how often the test still fires. `repeats` draws of phases per window. */
export function realNulls(channels: readonly MarkedChannel[], repeats: number, seed = 20260404): NullRow[] {
  const rows: NullRow[] = [];
  const random = createRandom(seed);
  for (const channel of channels) {
    for (const seconds of [10, 20]) {
      for (const randomised of [false, true]) {
        for (const kind of ["own beats", "unrelated beats"] as const) {
          let trials = 0;
          let one = 0;
          let mille = 0;
          for (let repeat = 0; repeat < (randomised ? repeats : 1); repeat++) {
            for (const cut of cuts(channel, seconds, randomised ? random : null)) {
              const ecg = channel.rWaves.length > 0;
              const marks = ecg ? channel.rWaves : channel.feet;
              const referenceBeats =
                kind === "own beats"
                  ? near(marks, cut.start, seconds)
                  : makeBeats(0, seconds, 50 + 70 * random(), 0.03, random);
              const { p } = testWithReference({
                values: cut.rest,
                rate: channel.rate,
                referenceBeats,
                delay: ecg || kind === "unrelated beats" ? ecgDelay : otherSideDelay,
              });
              trials++;
              if (p < 0.01) one++;
              if (p < 0.001) mille++;
            }
          }
          rows.push({
            name: channel.name,
            seconds,
            beats: kind,
            randomised,
            atOnePercent: share(one, trials),
            atOnePerMille: share(mille, trials),
          });
        }
      }
    }
  }
  return rows;
}

/** The pulse put back at a fraction of its size, on phase-randomised rests: share found, per channel and reference. */
export function putBack(channels: readonly MarkedChannel[], seed = 20260505): PutBackRow[] {
  const rows: PutBackRow[] = [];
  for (const channel of channels) {
    for (const seconds of [10, 20]) {
      for (const reference of ["R waves", "feet of the other marks"] as const) {
        const marks = reference === "R waves" ? channel.rWaves : channel.feet;
        if (marks.length === 0) continue;
        const random = createRandom(seed);
        const windows = [...cuts(channel, seconds, random)];
        for (const fraction of fractions) {
          let likely = 0;
          let found = 0;
          for (const cut of windows) {
            const { answer } = testWithReference({
              values: cut.rest.map((x, n) => x + fraction * cut.pulse[n]!),
              rate: channel.rate,
              referenceBeats: near(marks, cut.start, seconds),
              delay: reference === "R waves" ? ecgDelay : otherSideDelay,
            });
            if (answer === "found" || answer === "likely") likely++;
            if (answer === "found") found++;
          }
          rows.push({
            name: channel.name,
            seconds,
            reference,
            fraction,
            likely: share(likely, windows.length),
            found: share(found, windows.length),
          });
        }
      }
    }
  }
  return rows;
}

export interface AloneRow {
  readonly seconds: number;
  readonly label: string;
  readonly found: Share;
  readonly claimed: Share;
  /** Of those claimed: rate within 5 % of the median interval of the marked feet. */
  readonly rateRight: Share;
}

/** Labelled windows without a reference; 10 s windows are two neighbours of one label. */
export function aloneOnLabels(channels: readonly MarkedChannel[]): AloneRow[] {
  const counts = new Map<
    string,
    { trials: number; found: number; claimed: number; rated: number; right: number }
  >();
  for (const channel of channels) {
    channel.windows.forEach((window, i) => {
      for (const seconds of [5, 10]) {
        const next = channel.windows[i + 1];
        if (seconds === 10 && next?.label !== window.label) continue;
        const first = Math.round(window.from * channel.rate);
        const values = channel.values.subarray(first, first + Math.round(seconds * channel.rate));
        if (values.length < 0.95 * seconds * channel.rate) continue;
        const key = `${seconds} ${window.label}`;
        const count = counts.get(key) ?? { trials: 0, found: 0, claimed: 0, rated: 0, right: 0 };
        counts.set(key, count);
        const got = testAlone({ values, rate: channel.rate });
        count.trials++;
        if (got.presence.answer === "found") count.found++;
        if (got.rate === null) continue;
        count.claimed++;
        const feet = channel.feet.filter((foot) => foot >= window.from && foot <= window.from + seconds);
        const gaps = feet.slice(1).map((foot, k) => foot - feet[k]!);
        if (gaps.length < 2) continue;
        gaps.sort((a, b) => a - b);
        count.rated++;
        if (Math.abs((got.rate * gaps[gaps.length >> 1]!) / 60 - 1) < 0.05) count.right++;
      }
    });
  }
  return [...counts].map(([key, count]) => {
    const [seconds, label] = key.split(" ");
    return {
      seconds: Number(seconds),
      label: label!,
      found: share(count.found, count.trials),
      claimed: share(count.claimed, count.trials),
      rateRight: share(count.right, count.rated),
    };
  });
}
