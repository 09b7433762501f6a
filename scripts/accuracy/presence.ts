/** All figures on presence in one call: false alarms, power, upper limits, real nulls, pulses put back. */
import { type CoverageRow, type FalseAlarmRow, falseAlarms, limitCoverage } from "./presence-noise.js";
import { type PowerCurve, powerCurves } from "./presence-power.js";
import {
  type AloneRow,
  aloneOnLabels,
  type MarkedChannel,
  type NullRow,
  type PutBackRow,
  putBack,
  realNulls,
} from "./presence-real.js";
import { roundPulses, type ToneRow, toneAlarms } from "./presence-tones.js";

export type { MarkedChannel } from "./presence-real.js";
export { type AloneRow, aloneOnLabels, fractions, putBack, realNulls } from "./presence-real.js";
export { falseAlarms, limitCoverage, powerCurves };

/** Channels that carry marks, by the names of `data/beats`; all but the two 8 s segments. */
export const markedNames = [
  "bidmc_01",
  "a103l",
  "data",
  "data2",
  "noisy_20s",
  "P12_baseline_finger",
  "P12_baseline_ear",
  "P22_baseline_finger",
  "P22_baseline_ear",
  "red_ir",
] as const;

export interface PresenceFigures {
  readonly trials: number;
  readonly falseAlarms: readonly FalseAlarmRow[];
  readonly tones: readonly ToneRow[];
  readonly round: readonly ToneRow[];
  readonly coverage: readonly CoverageRow[];
  readonly power: readonly PowerCurve[];
  readonly nulls: readonly NullRow[];
  readonly putBack: readonly PutBackRow[];
  readonly alone: readonly AloneRow[];
}

/**
 * Under four minutes on one core with 3000 trials.
 * @param trials per cell of the false-alarm table; tones take a third, coverage a quarter, power a tenth of them
 */
export async function measurePresence(
  load: (name: string) => Promise<MarkedChannel>,
  trials = 3000,
): Promise<PresenceFigures> {
  const channels: MarkedChannel[] = [];
  for (const name of markedNames) channels.push(await load(name));
  return {
    trials,
    falseAlarms: falseAlarms(trials),
    tones: toneAlarms(Math.ceil(trials / 3)),
    round: roundPulses(Math.ceil(trials / 10)),
    coverage: limitCoverage(Math.ceil(trials / 4)),
    power: powerCurves(Math.ceil(trials / 10)),
    nulls: realNulls(channels, Math.max(1, Math.round(trials / 750))),
    putBack: putBack(channels),
    alone: aloneOnLabels(channels),
  };
}
