/** The practice limb: what an outside caller needs to run one, act out a scenario, and know what was true. */
export * from "./controls/index.js";
export { PracticeError, type PracticeErrorCode } from "./errors.js";
export { Body, type BodyBlock, type BodyPlan, type TimedTurn, type TurnTo } from "./person/body.js";
export type { SiteBlock, SitePlan } from "./person/person-site.js";
export { type PracticeSite, parsePracticeSite, practiceSiteName } from "./person/site.js";
export {
  contactCodes,
  leastPulse,
  type TruthBeat,
  type TruthColumns,
  truthColumns,
  type Way,
  wayCodes,
} from "./person/truth.js";
export { scenarioNamed, scenarios } from "./scenarios/catalogue.js";
export { notesOf, type PlayOptions, playScenario } from "./scenarios/play.js";
export type { Job, Role, Scenario, ScenarioRow } from "./scenarios/scenario.js";
