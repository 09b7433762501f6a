/** A scenario, a seed and a rate make a body that acts it out. */
import { type Annotation, seconds } from "../../model/index.js";
import { PracticeError } from "../errors.js";
import { Body, type TimedTurn } from "../person/body.js";
import type { Hand, VesselPerson } from "../vessels/index.js";
import type { Role, Scenario, ScenarioRow } from "./scenario.js";

export interface PlayOptions {
  readonly seed: number;
  /** Samples per second; 125 unless given. */
  readonly rate?: number;
  /** The unsettled constant of the collapsible artery, mmHg; the model's own unless given. */
  readonly chokePressure?: number;
  readonly mainsHz?: 50 | 60;
}

/** Hands whose wrist arteries the story presses need both. */
function handOf(scenario: Scenario, role: Role): Hand {
  const pressed = scenario.rows.some(
    (row) => "site" in row && row.site === role && (row.turn === "radialPress" || row.turn === "ulnarPress"),
  );
  return pressed ? "two-arteries" : "one-artery";
}

/** @throws {PracticeError} `unknown-site` where a row names a site the scenario has not */
function turnOf(scenario: Scenario, row: ScenarioRow): TimedTurn | null {
  if ("note" in row) return null;
  if (!("site" in row)) return row;
  const site = scenario.sites.findIndex(({ role }) => role === row.site);
  if (site < 0) throw new PracticeError("unknown-site", `${scenario.name} has no ${row.site} site`);
  return { ...row, site };
}

/** @throws {PracticeError} */
export function playScenario(scenario: Scenario, options: PlayOptions): Body {
  const { seed, rate = 125, chokePressure, mainsHz } = options;
  const person: Partial<VesselPerson> = chokePressure === undefined ? {} : { chokePressure };
  return new Body({
    seed,
    rate,
    sites: scenario.sites.map(({ role, at }) => ({ at, hand: handOf(scenario, role), person })),
    turns: scenario.rows.map((row) => turnOf(scenario, row)).filter((turn) => turn !== null),
    ...(mainsHz === undefined ? {} : { mainsHz }),
  });
}

/** What a bystander would have written down. */
export function notesOf(scenario: Scenario): Annotation[] {
  return scenario.rows.flatMap((row) =>
    "note" in row ? [{ time: seconds(row.at), duration: null, kind: "note" as const, text: row.note }] : [],
  );
}
