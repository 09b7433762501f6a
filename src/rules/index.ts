/** Clinical thresholds as rows, and the one evaluator. */
export { type RuleId, ruleOf, rules } from "./all.js";
export { captureRules, captureRulesBehind } from "./capture.js";
export { delayRules } from "./delay.js";
export { evaluate, type Finding, holds, type Measured, RuleError } from "./evaluate.js";
export { logRatioScatter, perfusionIndexRules } from "./perfusion-index.js";
export { presenceRules } from "./presence.js";
export { rateRules } from "./rate.js";
export type { Comparator, Measure, Rule, Support } from "./rule.js";
export { saturationRules } from "./saturation.js";
export { canSwell, type Mechanism, type MechanismRow, mechanisms } from "./swelling.js";
