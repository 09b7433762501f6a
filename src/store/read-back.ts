/** Rows of a shelf as events, each checked; a torn or foreign row is a problem, and the rest is still read. */
import { type CaseEvent, fold, isProblem, validateEvent, type WallTime } from "../case/index.js";
import type { Problem } from "../model/index.js";
import type { CaseRead, CaseSummary } from "./event-store.js";
import type { Landmarks } from "./shelf.js";

export function readBack(caseId: string, rows: readonly unknown[]): CaseRead {
  const events: CaseEvent[] = [];
  const problems: Problem[] = [];
  rows.forEach((row, i) => {
    const read = readRow(row, `case ${caseId}, row ${i + 1}`);
    if (isProblem(read)) problems.push(read);
    else events.push(read);
  });
  return { events, problems };
}

/** Also holds the event against the key it lies under. */
function readRow(row: unknown, where: string): CaseEvent | Problem {
  const key = row as { readonly [field: string]: unknown };
  const read = validateEvent(key["event"], where);
  if (isProblem(read)) return read;
  const apart = (["case", "device", "seq"] as const).find((field) => key[field] !== read[field]);
  if (apart === undefined) return read;
  const expected = `${apart} ${String(key[apart])}`;
  return { code: "event-misplaced", weight: "lost-part", where, expected, found: `${apart} ${read[apart]}` };
}

export function summarize(marks: Landmarks): CaseSummary {
  const { events } = readBack(marks.case, marks.rows);
  const view = fold(events);
  return {
    case: marks.case,
    name: view.name?.value ?? null,
    openedAt: view.name?.at ?? null,
    closedAt: view.closed?.at ?? null,
    lastAt: marks.lastAt as WallTime | null,
    events: marks.count,
  };
}
