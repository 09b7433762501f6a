/** A scenario is data: who is watched, and what is turned when. */
import type { Contact, HeartControlName, Rhythm, SiteControlName } from "../controls/index.js";
import type { PracticeSite } from "../person/site.js";

/** Something turned at the heart or at a site, at once or evenly over a while. */
export type Turn =
  | { readonly turn: HeartControlName; readonly to: number; readonly over?: number }
  | { readonly turn: "rhythm"; readonly to: Rhythm }
  | { readonly site: Role; readonly turn: SiteControlName; readonly to: number; readonly over?: number }
  | { readonly site: Role; readonly turn: "contact"; readonly to: Contact };

/** One row: from `at` seconds on. `note` is what a bystander would write down. Rows stand in time order. */
export type ScenarioRow = { readonly at: number } & (Turn | { readonly note: string });

/** What a site is in the story. */
export type Role = "sound" | "suspect" | "control";

/** The eight jobs of the trade that a scenario can train. */
export const jobs = [
  "believable-capture",
  "two-sides",
  "watch",
  "cuff-pressure",
  "bedside-checks",
  "hand-over",
  "teach",
  "look-back",
] as const;
export type Job = (typeof jobs)[number];

export interface Scenario {
  /** Lower-case words joined by hyphens: what is typed. */
  readonly name: string;
  readonly seconds: number;
  readonly jobs: readonly Job[];
  /** One line: what is learnt. */
  readonly teaches: string;
  /** For whoever would copy it on a person; empty when there is nothing to copy. */
  readonly cautions: readonly string[];
  readonly sites: readonly { readonly role: Role; readonly at: PracticeSite }[];
  readonly rows: readonly ScenarioRow[];
}
