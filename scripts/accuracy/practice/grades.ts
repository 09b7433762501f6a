/** Capture grades over all scenarios, against what the model knows to be so. */

import { createSiteListener } from "../../../src/limb/index.js";
import type { CaptureGrade, Window } from "../../../src/model/index.js";
import {
  type Body,
  playScenario,
  type Scenario,
  type SiteBlock,
  scenarios,
} from "../../../src/practice/index.js";
import { lightChannel } from "./overheard.js";

export const truths = ["wave", "weak wave", "no wave", "moved", "partly on", "off", "mixed"] as const;
export type TruthClass = (typeof truths)[number];

export type GradeTable = Readonly<Record<TruthClass, Readonly<Record<CaptureGrade, number>>>>;

const rate = 125;
const fullScale = 2 ** 18;
/** True PI under which a wave is called weak here, %. */
const weak = 0.1;
/** More movement than this, % of the light, and a second counts as moved: twice what a quiet hand has. */
const quiet = {
  drift: 0.5,
  tremor: 0.1,
  transport: 0.1,
  rubbing: 0.05,
  knocks: 0.5,
  slosh: 0.5,
  heartShake: 0.01,
} as const;

/** Each second of each site has one truth; a window whose seconds differ is `mixed`. */
export function scorePracticeGrades(seeds: readonly number[], chokePressure: number): GradeTable {
  const table = Object.fromEntries(
    truths.map((name) => [name, { solid: 0, shaky: 0, none: 0, off: 0, unreadable: 0 }]),
  ) as Record<TruthClass, Record<CaptureGrade, number>>;
  for (const scenario of scenarios)
    for (const seed of seeds) addScenario(scenario, seed, chokePressure, table);
  return table;
}

function addScenario(
  scenario: Scenario,
  seed: number,
  chokePressure: number,
  table: Record<TruthClass, Record<CaptureGrade, number>>,
): void {
  const body = playScenario(scenario, { seed, rate, chokePressure });
  const channel = lightChannel(rate);
  const windows: Window[][] = scenario.sites.map(() => []);
  const ears = scenario.sites.map((_, s) =>
    createSiteListener({ channel, site: null }, { window: (window) => windows[s]!.push(window) }),
  );
  const known: TruthClass[][] = scenario.sites.map(() => []);
  for (let second = 0; second < scenario.seconds; second++) {
    for (const [s, block] of body.advance(rate).sites.entries()) {
      ears[s]!.push(block.infrared.map((value) => value * fullScale));
      known[s]!.push(classOf(block, body, s));
    }
  }
  for (const ear of ears) ear.end();
  for (const [s, own] of windows.entries()) {
    for (const { from, to, capture } of own) {
      const seconds = new Set(known[s]!.slice(Math.floor(from + 0.01), Math.ceil(to - 0.01)));
      const truth = seconds.size === 1 ? [...seconds][0]! : "mixed";
      table[truth][capture]++;
    }
  }
}

function classOf({ truth }: SiteBlock, body: Body, site: number): TruthClass {
  const contact = truth.contact[rate - 1]!;
  const way = truth.way[rate - 1]!;
  if (contact !== truth.contact[0] || way !== truth.way[0]) return "mixed";
  if (contact <= 0) return "off";
  const controls = body.siteControls[site]!;
  for (const [name, most] of Object.entries(quiet))
    if (controls[name as keyof typeof quiet] > most) return "moved";
  if (contact === 1) return "partly on";
  if (way === 0 || body.heartControls.rhythm === "steady-flow") return "no wave";
  return truth.perfusionIndex[rate - 1]! < weak ? "weak wave" : "wave";
}
