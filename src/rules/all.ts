/** Every threshold in one list. */
import { captureRules } from "./capture.js";
import { delayRules } from "./delay.js";
import { perfusionIndexRules } from "./perfusion-index.js";
import { presenceRules } from "./presence.js";
import { rateRules } from "./rate.js";
import type { Rule } from "./rule.js";
import { saturationRules } from "./saturation.js";

const rows = [
  ...captureRules,
  ...presenceRules,
  ...perfusionIndexRules,
  ...delayRules,
  ...rateRules,
  ...saturationRules,
] as const;

export type RuleId = (typeof rows)[number]["id"];

export const rules: readonly Rule[] = rows;

const byId: ReadonlyMap<string, Rule> = new Map(rows.map((row) => [row.id, row]));

/** The row of that id. */
export function ruleOf(id: RuleId): Rule {
  const row = byId.get(id);
  if (row === undefined) throw new Error(`no rule ${id}, though its id is in the type`);
  return row;
}
