/** Capture grades against hand-made labels. Pure counting. */
import { type CaptureGrade, captureGrades } from "../model/index.js";

export const labels = ["good", "doubtful", "none", "unreadable"] as const;
export type Label = (typeof labels)[number];

export interface LabelledWindow {
  readonly from: number;
  readonly to: number;
  readonly label: Label;
}

/** Windows counted by label and grade; `ungraded` where no window of ours lies. */
export type Confusion = Record<Label, Record<CaptureGrade | "ungraded", number>>;

export function emptyConfusion(): Confusion {
  const row = () =>
    Object.fromEntries([...captureGrades, "ungraded"].map((grade) => [grade, 0])) as Confusion[Label];
  return { good: row(), doubtful: row(), none: row(), unreadable: row() };
}

/** The grade that fills most of the stretch; of equals the less believable. */
function gradeOver(
  windows: readonly { readonly from: number; readonly to: number; readonly capture: CaptureGrade }[],
  from: number,
  to: number,
): CaptureGrade | "ungraded" {
  const shares = captureGrades.map((grade) =>
    windows
      .filter((window) => window.capture === grade)
      .reduce((sum, window) => sum + Math.max(0, Math.min(to, window.to) - Math.max(from, window.from)), 0),
  );
  const most = Math.max(...shares);
  if (most <= 0) return "ungraded";
  return captureGrades[shares.findLastIndex((share) => share >= most - 1e-9)] as CaptureGrade;
}

export function confuse(
  windows: readonly { readonly from: number; readonly to: number; readonly capture: CaptureGrade }[],
  labelled: readonly LabelledWindow[],
): Confusion {
  const table = emptyConfusion();
  for (const { from, to, label } of labelled) table[label][gradeOver(windows, from, to)] += 1;
  return table;
}

export function addConfusion(into: Confusion, more: Confusion): void {
  for (const label of labels) {
    for (const grade of [...captureGrades, "ungraded"] as const) into[label][grade] += more[label][grade];
  }
}
