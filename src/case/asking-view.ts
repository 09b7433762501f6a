/** What a screen asks of a view again and again. */
import type { Site } from "../model/index.js";
import type { BodyOf } from "./event-kinds.js";
import type { CaseView, Pair, TakenReading, Told } from "./view.js";

/** Readings of one site, in order. */
export function readingsAt(view: CaseView, { side, digit }: Site): readonly TakenReading[] {
  return view.readings.filter(({ value }) => value.site.side === side && value.site.digit === digit);
}

/** Pairs whose second half is missing, the one due first before the others. */
export function openPairs(view: CaseView): readonly Pair[] {
  return view.pairs.filter((pair) => pair.after === null).sort((a, b) => a.due - b.due);
}

type Finding = Told<BodyOf<"finding-typed">>;

/** What makes two findings the same question asked again: place, item, and the pulse or nerve named. */
function question({ value }: Finding): string {
  const { where, finding } = value;
  const named =
    finding.item === "pulse"
      ? `${finding.pulse} by ${finding.by}`
      : finding.item === "sensation" || finding.item === "movement"
        ? finding.nerve
        : null;
  return JSON.stringify([where.side, where.limb, where.digit, finding.item, named]);
}

/** The latest answer to each question, in the order in which they were first asked. */
export function latestFindings(view: CaseView): readonly Finding[] {
  const latest = new Map<string, Finding>();
  for (const finding of view.findings) latest.set(question(finding), finding);
  return [...latest.values()];
}
