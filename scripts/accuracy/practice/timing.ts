/** When a pulse comes, against the model's own truth and against the Cramér–Rao bound. */

import type { TruthBeat } from "../../../src/practice/index.js";
import { listen } from "./twins.js";

export interface TimingRow {
  /** nA. */
  readonly photocurrent: number;
  readonly beats: number;
  readonly missed: number;
  readonly extra: number;
  /** Found minus true foot, ms. */
  readonly footBias: number;
  readonly footSpread: number;
  /** Found minus true peak, ms. */
  readonly peakBias: number;
  readonly peakSpread: number;
  /** Least possible spread of one beat's time in this noise, its shape known, ms. */
  readonly bound: number;
}

const tolerance = 0.15;

export function scoreTiming(persons: number, currents: readonly number[] = [200, 20, 2, 0.5]): TimingRow[] {
  return currents.map((photocurrent) => {
    const feet: number[] = [];
    const peaks: number[] = [];
    const bounds: number[] = [];
    let missed = 0;
    let extra = 0;
    let count = 0;
    for (let person = 0; person < persons; person++) {
      const { found, truth, bound } = listen(500 + person, photocurrent);
      const taken = new Set<number>();
      for (const beat of truth) {
        count++;
        const at = nearest(found, beat);
        if (at === null || taken.has(at)) {
          missed++;
          continue;
        }
        taken.add(at);
        const { peak, foot } = found[at]!;
        peaks.push(1000 * (peak - beat.peak!));
        if (foot !== null) feet.push(1000 * (foot - beat.foot!));
      }
      extra += found.length - taken.size;
      bounds.push(bound);
    }
    return {
      photocurrent,
      beats: count,
      missed,
      extra,
      footBias: mean(feet),
      footSpread: deviation(feet),
      peakBias: mean(peaks),
      peakSpread: deviation(peaks),
      bound: 1000 * Math.sqrt(mean(bounds.map((b) => b * b))),
    };
  });
}

function nearest(found: readonly { readonly peak: number }[], beat: TruthBeat): number | null {
  let best: number | null = null;
  for (const [k, { peak }] of found.entries()) {
    const gap = Math.abs(peak - beat.peak!);
    if (gap <= tolerance && (best === null || gap < Math.abs(found[best]!.peak - beat.peak!))) best = k;
  }
  return best;
}

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, x) => sum + x, 0) / Math.max(1, values.length);

export function deviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((x) => (x - middle) ** 2)));
}
