/** The truth of a practice run, and the list of scenarios, as JSON. */
import {
  leastPulse,
  practiceSiteName,
  type Scenario,
  type ScenarioRow,
  scenarios,
  type TruthBeat,
} from "../practice/index.js";
import { rounded, seconds } from "./json-values.js";
import type { PracticeOptions } from "./practice-record.js";

export function scenarioListJson(): Record<string, unknown> {
  return {
    schema: "limbtide.practice-list/1",
    scenarios: scenarios.map(({ name, seconds: lasts, jobs, teaches, cautions, sites }) => ({
      name,
      seconds: lasts,
      teaches,
      cautions,
      jobs,
      sites: sites.map(({ role, at }) => ({ role, site: practiceSiteName(at) })),
    })),
  };
}

function beatJson(beat: TruthBeat): Record<string, unknown> {
  return {
    r_s: seconds(beat.r),
    foot_s: beat.foot === null ? null : seconds(beat.foot),
    peak_s: beat.peak === null ? null : seconds(beat.peak),
    perfusion_index_pct: rounded(beat.perfusionIndex, 4),
    systolic_mmhg: rounded(beat.systolic, 1),
    systolic_below_mmhg: rounded(beat.systolicBelow, 1),
    external_mmhg: rounded(beat.external, 1),
    way: beat.way,
    stroke_ratio: rounded(beat.strokeRatio, 3),
  };
}

function rowJson(row: ScenarioRow): Record<string, unknown> {
  const { at, ...rest } = row;
  return { at_s: at, ...rest };
}

/** What stands in `NAME.truth.json`. */
export function truthJson(
  scenario: Scenario,
  { seed, rate, chokePressure }: PracticeOptions,
  beats: readonly (readonly TruthBeat[])[],
): Record<string, unknown> {
  return {
    schema: "limbtide.truth/1",
    scenario: scenario.name,
    teaches: scenario.teaches,
    cautions: scenario.cautions,
    seed,
    rate_hz: rate,
    duration_s: scenario.seconds,
    choke_pressure_mmhg: chokePressure,
    least_pulse_pct: leastPulse,
    rows: scenario.rows.map(rowJson),
    sites: scenario.sites.map(({ role, at }, s) => ({
      role,
      site: practiceSiteName(at),
      beats: beats[s]?.map(beatJson) ?? [],
    })),
  };
}
