/** The sentence that answers `read`: what was found, where, for how long. */
import { clockText } from "../handover/index.js";
import {
  type CaptureGrade,
  captureGrades,
  type Loss,
  type Site,
  siteName,
  type Window,
} from "../model/index.js";
import { gradeSeconds } from "./grade-spans.js";

const whole = (value: number) => String(Math.round(value));

/** What is said when not one stretch is solid, by the grade that fills most of it (S5: four different answers). */
const withoutSolid: Readonly<Record<Exclude<CaptureGrade, "solid">, string>> = {
  shaky: "Cannot tell: pulses likely, none to be trusted",
  none: "No pulse wave found under a working probe",
  off: "No working probe: off or faulty",
  unreadable: "Cannot tell: movement or noise hides whatever is there",
};

export function readSentence(site: Site | null, windows: readonly Window[], losses: readonly Loss[]): string {
  const sums = gradeSeconds(windows);
  const total = captureGrades.reduce((sum, grade) => sum + sums[grade], 0);
  const where = site === null ? "" : ` at the ${siteName(site)}`;
  if (total === 0) return `Cannot tell${where}: nothing to read.`;
  if (sums.solid > 0) {
    return `Pulse wave detected${where} in ${whole(sums.solid)} of ${whole(total)} s.${lossWords(losses)}`;
  }
  const grades = captureGrades.filter((grade) => grade !== "solid");
  const most = grades.reduce((a, b) => (sums[b] > sums[a] ? b : a));
  return `${withoutSolid[most]}${where} (${whole(sums[most])} of ${whole(total)} s).`;
}

function lossWords(losses: readonly Loss[]): string {
  const last = losses.at(-1);
  if (last === undefined) return "";
  const times = losses.length > 1 ? ` ${losses.length} times, last` : "";
  const back = last.back === null ? "not back" : `back at ${clockText(last.back)}`;
  return ` Pulse lost${times} at ${clockText(last.from)}, ${back}.`;
}
