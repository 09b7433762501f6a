/** The capture-grade part of the accuracy page. */
import { captureGrades } from "../../src/model/capture.js";
import { type GradedChannel, gradeLabelled, gradeNoise, gradePhaseless, gradeWithoutPulse } from "./grade.js";
import { gradeLeftOut } from "./grade-left-out.js";
import { percent, tableOf } from "./markdown.js";

export function pageOfGrades(
  channels: readonly (GradedChannel & { readonly person: string })[],
  noiseDraws: number,
): string[] {
  const report = gradeLabelled(channels);
  const noise = gradeNoise(noiseDraws);
  const withFeet = channels.filter((channel) => channel.feet.length > 5);
  const without = gradeWithoutPulse(withFeet);
  const phaseless = gradePhaseless(withFeet, Math.max(1, Math.round(noiseDraws / 3)));
  const leftOut = gradeLeftOut(channels);
  const kinds = [...new Set(noise.map((row) => row.kind))];
  return [
    "## Capture grade against window labels (real recordings)",
    "",
    "5 s windows labelled by one reader. Bars: at least 97 % of `good` solid, none of `none` or `unreadable` solid, fewer than 35 of 86 `doubtful` solid.",
    "",
    tableOf(
      ["record", "label", ...captureGrades],
      report.rows.map(({ record, label, counts }) => [
        record === "all" ? "**all**" : `\`${record}\``,
        label,
        ...captureGrades.map((grade) => counts[grade]),
      ]),
    ),
    "",
    `\`good\` graded solid: **${report.goodSolid} of ${report.good}** (${percent(report.goodSolid / report.good)}). \`none\` or \`unreadable\` graded solid:`,
    `**${report.badSolid} of ${report.bad}**, which still allows a true rate of up to ${percent(report.badLimit)} (95 %). \`doubtful\` graded solid: ${report.doubtfulSolid} of ${report.doubtful}.`,
    "",
    "### Limits chosen without the scored person",
    "",
    "The four main limits (pulses alike on average and at worst, longest silence, rest between pulses) chosen for each person on all others, from a grid",
    "declared beforehand; the other limits stay as shipped and were set with every person in view.",
    "",
    `\`good\` graded solid: **${leftOut.goodSolid} of ${leftOut.good}**; \`none\` or \`unreadable\` graded solid: **${leftOut.badSolid} of ${leftOut.bad}**; \`doubtful\` graded solid: ${leftOut.doubtfulSolid} of ${leftOut.doubtful}.`,
    "",
    "### With the pulse taken out (altered recordings)",
    "",
    "The beat-locked average of neighbouring beats is subtracted; only windows labelled `good` before count. What the subtraction leaves of each beat still",
    "beats, so these are not pure noise.",
    "",
    tableOf(
      ["record", ...captureGrades],
      without.map(({ record, counts }) => [`\`${record}\``, ...captureGrades.map((grade) => counts[grade])]),
    ),
    "",
    "And with the phases of what is left drawn anew at equal spectrum, so that nothing in it keeps time:",
    "",
    tableOf(
      ["record", ...captureGrades],
      phaseless.map(({ record, counts }) => [
        `\`${record}\``,
        ...captureGrades.map((grade) => counts[grade]),
      ]),
    ),
    "",
    "### On noise (synthetic)",
    "",
    `${noiseDraws} recordings of 60 s of each kind at each of 25 to 1000 samples/s. Bar: none solid.`,
    "",
    tableOf(
      ["kind", ...captureGrades],
      kinds.map((kind) => {
        const rows = noise.filter((row) => row.kind === kind);
        return [kind, ...captureGrades.map((grade) => rows.reduce((sum, row) => sum + row.counts[grade], 0))];
      }),
    ),
    "",
  ];
}
