/** The sentence that answers `read`: what was found, where, for how long. */
import { clockText } from "../handover/index.js";
import {
  type CaptureGrade,
  captureGrades,
  type Loss,
  type ReasonCode,
  type Site,
  siteName,
  type Window,
} from "../model/index.js";
import { gradeSeconds } from "./grade-spans.js";

/** Seconds; a part of one is not rounded away. */
const whole = (value: number) => String(value >= 1 ? Math.round(value) : Number(value.toPrecision(1)));

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
  const said = most === "unreadable" ? unreadableWords(windows) : withoutSolid[most];
  return `${said}${where} (${whole(sums[most])} of ${whole(total)} s).`;
}

/** Movement is not named where nothing moved: too little was recorded, or nothing. */
function unreadableWords(windows: readonly Window[]): string {
  const hidden = windows.filter((window) => window.capture === "unreadable");
  const all = (code: ReasonCode) => hidden.every(({ reasons }) => reasons[0]?.code === code);
  if (all("too-short")) return "Cannot tell: too short to judge";
  if (all("missing-samples")) return "Cannot tell: samples are missing";
  return withoutSolid.unreadable;
}

/** A wave out of sight is not yet a pulse lost (S5). */
function lossWords(losses: readonly Loss[]): string {
  const last = losses.at(-1);
  if (last === undefined) return "";
  const times = losses.length > 1 ? ` ${losses.length} times, last` : "";
  const back = last.back === null ? "not back" : `back at ${clockText(last.back)}`;
  return ` Wave lost from sight${times} at ${clockText(last.from)}, ${back}.`;
}
