/** Acts a scenario out and lays light and truth down as recordings, side by side. */
import type { OutgoingChannel, OutgoingRecording } from "../formats/outgoing.js";
import {
  notesOf,
  type PracticeSite,
  playScenario,
  practiceSiteName,
  type Scenario,
  type TruthBeat,
  type TruthColumns,
  truthColumns,
} from "../practice/index.js";

/** Converter steps over full scale: light is stored as their count. */
const fullScale = 2 ** 18;

export interface PracticeOptions {
  readonly seed: number;
  readonly rate: number;
  /** mmHg; `null` for the model's own. */
  readonly chokePressure: number | null;
}

export interface PracticeRecord {
  readonly light: OutgoingRecording;
  /** One column for each truth at each site, sample by sample. */
  readonly truth: OutgoingRecording;
  /** Beats that came to their end, by site. */
  readonly beats: readonly (readonly TruthBeat[])[];
}

/** Name in full, four letters for short labels, unit, and the step worth writing. */
const truthNames: Readonly<Record<keyof TruthColumns, readonly [string, string, string, number]>> = {
  flow: ["flow over rest", "Flow", "1", 1e-4],
  digitPressure: ["pressure in the digit", "Pdig", "mm[Hg]", 0.01],
  upstream: ["pressure above the cuff", "Pup", "mm[Hg]", 0.01],
  downstream: ["pressure below the cuff", "Pdn", "mm[Hg]", 0.01],
  external: ["cuff or tissue pressure", "Pext", "mm[Hg]", 0.01],
  saturation: ["saturation in the digit", "Sat", "1", 1e-5],
  way: ["way of the pulse", "Way", "1", 1],
  perfusionIndex: ["true perfusion index", "PI", "%", 1e-4],
  contact: ["contact of the probe", "Cont", "1", 1],
};

/** `left index finger` as `L index`, at most 12 characters, for formats with short labels. */
export function shortSite(site: PracticeSite): string {
  return `${site.side === "left" ? "L" : "R"} ${site.digit.replace(" finger", "")}`;
}

/** @param progress share done, from 0 to 1 */
export async function recordScenario(
  scenario: Scenario,
  name: string,
  { seed, rate, chokePressure }: PracticeOptions,
  progress: (share: number) => void,
): Promise<PracticeRecord> {
  const body = playScenario(scenario, { seed, rate, ...(chokePressure === null ? {} : { chokePressure }) });
  const length = Math.round(scenario.seconds * rate);
  const column = () => new Float64Array(length);
  const held = scenario.sites.map(() => ({
    infrared: column(),
    red: column(),
    truth: truthColumns.map(column),
  }));
  const beats: TruthBeat[][] = scenario.sites.map(() => []);
  for (let second = 0; second < scenario.seconds; second++) {
    const { first, sites } = body.advance(Math.min(rate, length - second * rate));
    for (const [s, site] of sites.entries()) {
      const into = held[s]!;
      for (let n = 0; n < site.infrared.length; n++) {
        into.infrared[first + n] = site.infrared[n]! * fullScale;
        into.red[first + n] = site.red[n]! * fullScale;
      }
      for (const [t, truth] of truthColumns.entries()) into.truth[t]!.set(site.truth[truth], first);
      beats[s]!.push(...site.beats);
    }
    if (second % 20 === 0) {
      progress(second / scenario.seconds);
      // Lets an interrupt through.
      await new Promise(setImmediate);
    }
  }
  const origin = `limbtide practice, scenario ${scenario.name}, seed ${seed}: simulated, not a person`;
  const common = { rate, annotations: notesOf(scenario), origin };
  const light = scenario.sites.flatMap(({ at }, s): OutgoingChannel[] => [
    {
      name: `IR ${practiceSiteName(at)}`,
      label: `IR ${shortSite(at)}`,
      unit: "count",
      step: 1,
      values: held[s]!.infrared,
    },
    {
      name: `Red ${practiceSiteName(at)}`,
      label: `Red ${shortSite(at)}`,
      unit: "count",
      step: 1,
      values: held[s]!.red,
    },
  ]);
  const truth = scenario.sites.flatMap(({ at }, s) =>
    truthColumns.map((key, t): OutgoingChannel => {
      const [full, short, unit, step] = truthNames[key];
      const label = `${short} ${shortSite(at)}`.slice(0, 16);
      return { name: `${full}, ${practiceSiteName(at)}`, label, unit, step, values: held[s]!.truth[t]! };
    }),
  );
  return {
    light: { ...common, name, channels: light },
    truth: { ...common, name: `${name}.truth`, channels: truth },
    beats,
  };
}
