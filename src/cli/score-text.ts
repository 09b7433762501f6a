/** `score` for a person. */
import { captureGrades } from "../model/index.js";
import type { Paint } from "./paint.js";
import { plainText } from "./plain-text.js";
import { labels } from "./score-grades.js";
import type { RecordScore } from "./score-record.js";
import { type BeatFigures, figuresOf, type Pooled } from "./score-summary.js";

const share = (value: number | null) => (value === null ? "–" : value.toFixed(4)).padStart(8);
/** Whole milliseconds, without a minus before 0. */
const ms = (value: number) => String(Math.round(value) + 0);
const count = (value: number) => String(value).padStart(7);
const grades = [...captureGrades, "ungraded"] as const;

function beatLine(name: string, figures: BeatFigures, width: number): string {
  const { hits, missed, extra, sensitivity, precision, f1, timing } = figures;
  const late =
    timing === null ? "" : `  ${ms(timing.median).padStart(4)} (${ms(timing.low)} to ${ms(timing.high)})`;
  return `  ${name.padEnd(width)}${count(hits)}${count(missed)}${count(extra)}${share(sensitivity)}${share(precision)}${share(f1)}${late}`;
}

export function scoreText(
  scores: readonly RecordScore[],
  pooled: Pooled,
  leftOut: readonly { readonly name: string; readonly why: string }[],
  paint: Paint,
): string {
  const width = Math.max(8, ...scores.map((score) => score.name.length)) + 1;
  const beats = scores.flatMap((score) =>
    score.beats === null ? [] : [beatLine(plainText(score.name), figuresOf(score.beats), width)],
  );
  const lines: string[] = [];
  if (pooled.beats !== null) {
    lines.push(
      paint.bold("Beats within 150 ms of a mark"),
      `  ${"record".padEnd(width)}   hits missed  extra   sens.   prec.      F1  found minus marked, ms: median (5 to 95 %)`,
      ...beats,
      paint.bold(beatLine("all", pooled.beats, width)),
      "",
    );
  }
  if (pooled.grades !== null) {
    const table = pooled.grades;
    lines.push(
      paint.bold("Windows: label against capture grade"),
      `  ${"label".padEnd(12)}${grades.map((grade) => grade.padStart(11)).join("")}`,
      ...labels.map(
        (label) =>
          `  ${label.padEnd(12)}${grades.map((grade) => String(table[label][grade]).padStart(11)).join("")}`,
      ),
      "",
    );
  }
  if (leftOut.length > 0) {
    lines.push("Left out:", ...leftOut.map(({ name, why }) => plainText(`  ${name}: ${why}`)), "");
  }
  return lines.join("\n");
}
