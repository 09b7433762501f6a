/** Markdown tables and numbers for the accuracy page. */
import type { Share } from "./presence-share.js";

export function tableOf(head: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  const line = (cells: readonly (string | number)[]) => `| ${cells.join(" | ")} |`;
  return [line(head), line(head.map(() => "---")), ...rows.map(line)].join("\n");
}

export const percent = (value: number, digits = 1): string =>
  Number.isFinite(value) ? `${(100 * value).toFixed(digits)} %` : "–";

/** "0.9 % (0.6 to 1.3)". */
export function shareOf({ value, low, high, trials }: Share, digits = 1): string {
  if (trials === 0) return "–";
  return `${percent(value, digits)} (${(100 * low).toFixed(digits)} to ${(100 * high).toFixed(digits)})`;
}

export const decimals = (value: number | null | undefined, digits: number): string =>
  value === null || value === undefined || !Number.isFinite(value) ? "–" : value.toFixed(digits);
