/** The one evaluator: holds measured values against rows and says which are passed. */
import type { Comparator, Measure, Rule } from "./rule.js";

/** Values at hand, each in the unit of its rows; `null` and absent both mean not measured. */
export type Measured = { readonly [measure in Measure]?: number | null };

/** One row held against one value. */
export interface Finding {
  readonly rule: Rule;
  readonly measured: number;
  /** Whether the row's finding holds. */
  readonly met: boolean;
}

/** The caller handed over a value no threshold can be held against. */
export class RuleError extends Error {
  override readonly name = "RuleError";
  constructor(
    readonly code: "not-a-number",
    detail: string,
  ) {
    super(`${code}: ${detail}`);
  }
}

const compare: { readonly [c in Comparator]: (a: number, b: number) => boolean } = {
  "<": (a, b) => a < b,
  "<=": (a, b) => a <= b,
  ">": (a, b) => a > b,
  ">=": (a, b) => a >= b,
};

/**
 * Whether `measured` passes the row's threshold, with the comparator exactly as the row gives it.
 * Values are taken to twelve digits, because 1.76 / 0.8 must count as 2.2 and not as a hair below.
 *
 * @throws {RuleError} `not-a-number` on NaN; infinities compare as usual
 */
export function holds(rule: Rule, measured: number): boolean {
  if (Number.isNaN(measured)) throw new RuleError("not-a-number", `${rule.measure} for ${rule.id}`);
  return compare[rule.comparator](Number(measured.toPrecision(12)), rule.value);
}

/**
 * Holds each row against the value of its measure. Rows whose measure is missing give no finding:
 * what was not measured is neither passed nor failed.
 *
 * @throws {RuleError} `not-a-number`
 */
export function evaluate(rules: Rule | readonly Rule[], measured: Measured): Finding[] {
  const rows: readonly Rule[] = "id" in rules ? [rules] : rules;
  const findings: Finding[] = [];
  for (const rule of rows) {
    const value = measured[rule.measure];
    if (value === undefined || value === null) continue;
    findings.push({ rule, measured: value, met: holds(rule, value) });
  }
  return findings;
}
