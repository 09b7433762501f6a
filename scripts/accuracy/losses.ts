/** How soon losses and returns of the pulse are seen, on cut recordings, and how often one is seen that was none. */
import type { Loss } from "../../src/model/capture.js";
import { createRandom } from "../../src/pulse/testing/noise.js";
import { listenTo } from "./grade.js";
import {
  type CutLevel,
  type CutWay,
  choosePlace,
  cutLevels,
  cutPulse,
  cutWays,
  makeCuttable,
  type Place,
} from "./loss-cuts.js";
import type { MarkedRecording } from "./recordings.js";

/** Heard before a cut and after its return, s. */
const lead = 40;
const tail = 12;
/** Marked intervals whose median is the local one. */
const localIntervals = 8;
/** Beats within which both must be seen. */
export const withinBeats = 3;

/** Persons the settings of the watch were chosen on: every second in alphabetical order. */
export const chosenOn: readonly string[] = ["041s", "bidmc_01", "data2", "P12", "red_ir"];

export interface CutTrial {
  readonly record: string;
  readonly person: string;
  readonly way: CutWay;
  readonly level: CutLevel;
  readonly place: Place;
  /** Local marked intervals from the last true beat to where the loss was seen; `null` if it was not seen before the return. */
  readonly lossBeats: number | null;
  /** Local marked intervals from the first restored beat to where the return was seen; `null` if none was seen. */
  readonly returnBeats: number | null;
  /** The cut fell between a marked foot and its peak. */
  readonly inUpstroke: boolean;
  /** Returns seen while the pulse was still cut. */
  readonly falseReturns: number;
}

export const lossInTime = ({ lossBeats }: CutTrial) => lossBeats !== null && lossBeats <= withinBeats;
export const returnInTime = ({ returnBeats }: CutTrial) => returnBeats !== null && returnBeats <= withinBeats;

/** Median of the intervals among the last eight before `time`, or the first eight from it on. */
function localInterval(peaks: readonly number[], time: number, side: "before" | "after"): number {
  const near =
    side === "before"
      ? peaks.filter((peak) => peak <= time).slice(-localIntervals - 1)
      : peaks.filter((peak) => peak >= time).slice(0, localIntervals + 1);
  const intervals = near.slice(1).map((peak, i) => peak - near[i]!);
  return intervals.sort((a, b) => a - b)[intervals.length >> 1]!;
}

/**
 * The clock of a loss starts at the last marked peak before the cut: the beat that is missing may have been due at
 * once or an interval later. The clock of a return starts at the peak of the first marked beat that lies wholly, foot
 * and peak, after the restoration.
 */
export function timeCut(recording: MarkedRecording, place: Place, losses: readonly Loss[]) {
  const { peaks, feet } = recording;
  const last = peaks.findLast((peak) => peak < place.cut)!;
  const foot = feet.find((time) => time >= place.back)!;
  const first = peaks.find((peak) => peak > foot)!;
  const seen = losses.find((loss) => loss.seen >= place.cut && loss.seen < place.back)?.seen;
  const known = losses.flatMap((loss) =>
    loss.seen < place.back && loss.backSeen !== null ? [loss.backSeen] : [],
  );
  const back = seen === undefined ? undefined : known.find((time) => time >= place.back);
  const before = feet.findLast((time) => time < place.cut);
  return {
    inUpstroke: before !== undefined && before > last,
    lossBeats: seen === undefined ? null : (seen - last) / localInterval(peaks, last, "before"),
    returnBeats: back === undefined ? null : (back - first) / localInterval(peaks, first, "after"),
    falseReturns: known.filter(
      (time) => time > place.cut && time < place.back && time > (seen ?? Number.POSITIVE_INFINITY),
    ).length,
  };
}

/** Cuts every recording that has room for it `perRecord` times in every way, at places of its own. */
export function cutTrials(
  recordings: readonly MarkedRecording[],
  perRecord: number,
  seed = 20261126,
): CutTrial[] {
  const trials: CutTrial[] = [];
  recordings.forEach((recording, r) => {
    const source = makeCuttable(recording);
    const { rate } = recording;
    const random = createRandom(seed + 1000 * r);
    for (let i = 0; i < perRecord; i++) {
      for (const way of cutWays) {
        for (const level of cutLevels) {
          const place = choosePlace(source, random);
          if (place === null) continue;
          const start = Math.max(0, Math.floor((place.cut - lead) * rate));
          const values = cutPulse(source, place, way, level, seed + 7919 * trials.length).slice(
            start,
            Math.ceil((place.back + tail) * rate),
          );
          const by = start / rate;
          const losses = listenTo(values, rate).losses.map(
            (loss) =>
              ({
                from: loss.from + by,
                seen: loss.seen + by,
                back: loss.back === null ? null : loss.back + by,
                backSeen: loss.backSeen === null ? null : loss.backSeen + by,
              }) as Loss,
          );
          trials.push({
            record: recording.name,
            person: recording.person,
            way,
            level,
            place,
            ...timeCut(recording, place, losses),
          });
        }
      }
    }
  });
  return trials;
}
