/** Windows of one grade joined into stretches, and what they come to. */
import type { CaptureGrade, Reason, Window } from "../model/index.js";
import { captureGrades } from "../model/index.js";

/** Adjoining windows of one grade. */
export interface GradedStretch {
  readonly from: number;
  readonly to: number;
  readonly capture: CaptureGrade;
  /** Medians over its windows; `null` if none has one. */
  readonly pulseRate: number | null;
  readonly perfusionIndex: number | null;
  /** The reason most windows share, the gravest of those; `null` when solid. */
  readonly reason: Reason | null;
}

export function middle(values: readonly number[]): number | null {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  if (sorted.length === 0) return null;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

function commonest(windows: readonly Window[]): Reason | null {
  const counts = new Map<string, { reason: Reason; count: number }>();
  for (const { reasons } of windows) {
    const first = reasons[0];
    if (first === undefined) continue;
    const entry = counts.get(first.code) ?? { reason: first, count: 0 };
    entry.count += 1;
    counts.set(first.code, entry);
  }
  return [...counts.values()].sort((a, b) => b.count - a.count)[0]?.reason ?? null;
}

export function joinGrades(windows: readonly Window[]): GradedStretch[] {
  const runs: Window[][] = [];
  for (const window of windows) {
    const run = runs.at(-1);
    if (run !== undefined && run[0]!.capture === window.capture) run.push(window);
    else runs.push([window]);
  }
  return runs.map((run) => ({
    from: run[0]!.from,
    to: run.at(-1)!.to,
    capture: run[0]!.capture,
    pulseRate: middle(run.flatMap((window) => window.pulseRate ?? [])),
    perfusionIndex: middle(run.flatMap((window) => window.perfusionIndex ?? [])),
    reason: commonest(run),
  }));
}

/** Seconds under each grade. */
export function gradeSeconds(windows: readonly Window[]): Record<CaptureGrade, number> {
  const sums = Object.fromEntries(captureGrades.map((grade) => [grade, 0])) as Record<CaptureGrade, number>;
  for (const window of windows) sums[window.capture] += window.to - window.from;
  return sums;
}
