/** The capture-grade part of the accuracy page. */
import { captureGrades } from "../../src/model/capture.js";
import { strokeKinds } from "../../src/pulse/testing/disturbances.js";
import { type GradedChannel, gradeLabelled, gradeNoise, gradePhaseless, gradeWithoutPulse } from "./grade.js";
import { gradeLadder, ladderShares, littleLeft } from "./grade-ladder.js";
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
  const ladder = gradeLadder(withFeet);
  // Another seed than any limit was set on.
  const strokes = strokeKinds.map((kind) => ({
    kind,
    rows: gradeNoise(15 * noiseDraws, undefined, [kind], 777),
  }));
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
    "Subtracted is, at each beat, the mean of its neighbours and the three main ways in which they differ from it, fitted to the beat. Only windows",
    "labelled `good` before count. The recording never holds a pulse, so nothing tells how large one would be: a smooth rest is then `unreadable`, not `none`.",
    "",
    tableOf(
      ["record", ...captureGrades],
      without.map(({ record, counts }) => [`\`${record}\``, ...captureGrades.map((grade) => counts[grade])]),
    ),
    "",
    "And with the phases of what is left drawn anew at equal spectrum. What beats in the rest keeps its narrow peak at the pulse rate and becomes a wave that",
    "swells and fades: this tells that such a wave is never taken for pulses, not whether its absence is seen.",
    "",
    tableOf(
      ["record", ...captureGrades],
      phaseless.map(({ record, counts }) => [
        `\`${record}\``,
        ...captureGrades.map((grade) => counts[grade]),
      ]),
    ),
    "",
    "### Where the grade loses a pulse (altered recordings)",
    "",
    "The pulse taken out as above and put back at a share of its size: throughout, or in turns of 30 s after 30 s at full size, so that the size a pulse",
    `would have is known. "Little left": windows in which the rest is below ${percent(littleLeft)} of the pulse (root mean square, 0.06 to 0.6 s).`,
    "",
    tableOf(
      [
        "before",
        "share put back",
        ...captureGrades,
        ...captureGrades.map((grade) => `${grade}, little left`),
      ],
      (["nothing", "full pulses"] as const).flatMap((before) =>
        ladderShares.map((share) => {
          const rows = ladder.filter((row) => row.before === before && row.share === share);
          const sums = (which: "counts" | "clean") =>
            captureGrades.map((grade) => rows.reduce((sum, row) => sum + row[which][grade], 0));
          return [before, share === 0 ? "0" : `1/${1 / share}`, ...sums("counts"), ...sums("clean")];
        }),
      ),
    ),
    "",
    ...whereItEnds(ladder),
    "",
    "### On strokes of a hand (synthetic)",
    "",
    "Rubbing and swinging at 0.5 to 3 Hz, on draws that no limit was set on. Bar: none solid. Strokes of any shape are some of them shaped as a pulse is,",
    "and half waves come near; where such strokes are also very alike, one channel cannot tell them from pulses.",
    "",
    tableOf(
      ["kind", "windows", ...captureGrades],
      strokes.map(({ kind, rows }) => {
        const sums = captureGrades.map((grade) => rows.reduce((sum, row) => sum + row.counts[grade], 0));
        return [kind, sums.reduce((sum, n) => sum + n, 0), ...sums];
      }),
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

/** The smallest share at which half the windows still show a pulse, and the largest at which any is called `none`. */
function whereItEnds(ladder: ReturnType<typeof gradeLadder>): string[] {
  const rows = (share: number) => ladder.filter((row) => row.before === "full pulses" && row.share === share);
  const of = (share: number, ...grades: (typeof captureGrades)[number][]) =>
    rows(share).reduce((sum, { counts }) => sum + grades.reduce((n, grade) => n + counts[grade], 0), 0);
  const half = (...grades: (typeof captureGrades)[number][]) =>
    ladderShares
      .filter((share) => share > 0 && of(share, ...grades) >= 0.5 * of(share, ...captureGrades))
      .at(-1);
  const none = ladderShares.find((share) => of(share, "none") > 0);
  const said = (share: number | undefined) => (share === undefined ? "no share" : `1/${1 / share}`);
  return [
    `After full pulses at least half the windows are solid down to ${said(half("solid"))} and solid or shaky down to ${said(half("solid", "shaky"))}; ` +
      `the largest share at which any window is \`none\` is ${none === 0 ? "0" : said(none)}.`,
  ];
}
