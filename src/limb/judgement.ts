/** A verdict in the making: what was decided and why, before confidence and words. */
import type { ComparisonReason, ComparisonReasonCode, Verdict } from "./comparison.js";

export interface Judgement {
  readonly verdict: Verdict;
  readonly reasons: readonly ComparisonReason[];
  /** The finding itself is not well founded; see `confidenceOf`. */
  readonly thin: boolean;
}

export function reason(
  code: ComparisonReasonCode,
  words: string,
  number: Partial<Pick<ComparisonReason, "value" | "unit" | "rule">> = {},
): ComparisonReason {
  return { code, words, value: number.value ?? null, unit: number.unit ?? "", rule: number.rule ?? null };
}

export function cannotTell(...reasons: ComparisonReason[]): Judgement {
  return { verdict: "cannot-tell", reasons, thin: true };
}
