/** Which rows of a recording are drawn: a page has room for few, a day has thousands. */
import type { CaptureGrade } from "../model/index.js";

/** A stretch of one grade, seconds from the first sample of the record. */
export interface GradeSpan {
  readonly from: number;
  readonly to: number;
  readonly capture: CaptureGrade;
}

/** Seconds of signal in one row of the strip. */
export function rowSeconds(duration: number): number {
  if (duration <= 60) return 10;
  return duration <= 240 ? 20 : 30;
}

/** Most rows on one page. */
export const mostRows = 16;

/**
 * Which rows of a recording to draw: all if they fit; else the first, the last and those with a lost
 * pulse or a grade other than solid, earliest first, filled up from the start.
 *
 * @returns start of each row in seconds, rising
 */
export function chooseRows(
  grades: readonly GradeSpan[],
  losses: readonly { readonly from: number }[],
): number[] {
  const first = grades[0]?.from ?? 0;
  const last = grades.at(-1)?.to ?? 0;
  const step = rowSeconds(last - first);
  const count = Math.max(1, Math.ceil((last - first) / step - 1e-6));
  if (count <= mostRows) return Array.from({ length: count }, (_, i) => first + i * step);
  const rowOf = (time: number) => Math.min(count - 1, Math.floor((time - first) / step));
  const wanted = new Set([0, count - 1]);
  const add = (row: number) => {
    if (wanted.size < mostRows) wanted.add(row);
  };
  for (const loss of losses) add(rowOf(loss.from));
  for (const span of grades) if (span.capture !== "solid") add(rowOf(span.from));
  for (let row = 1; wanted.size < mostRows; row++) add(row);
  return [...wanted].sort((a, b) => a - b).map((row) => first + row * step);
}
