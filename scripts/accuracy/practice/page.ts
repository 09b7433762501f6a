/** The part of the accuracy page about the practice limb. */

import { verdicts as verdictNames } from "../../../src/limb/index.js";
import { captureGrades } from "../../../src/model/index.js";
import { decimals, percent, tableOf } from "../markdown.js";
import { scoreCuffReturn } from "./cuff-return.js";
import { scoreDetection } from "./detection.js";
import { scorePracticeGrades, truths } from "./grades.js";
import { scoreOcclusions } from "./occlusions.js";
import { chokePressures } from "./overheard.js";
import { scoreTiming } from "./timing.js";

/** @param part 1 for the full run, 10 for a tenth of it */
export function pageOfPractice(part: number): string[] {
  return [
    "# On the practice limb",
    "",
    "All that follows is **simulated**: a model that knows what is true, held against published figures (`docs/practice-limb.md`), and no limb. A detector",
    "that does well here has not been shown to do well on people. The pressure at which a collapsing artery chokes is unsettled, so what depends on a",
    "cuff is scored at both of its settings, and no size of a wave under a half-closed cuff is quoted.",
    "",
    ...occlusions(10_000 / part),
    ...detection(Math.ceil(20 / part)),
    ...timing(Math.ceil(40 / part)),
    ...cuffReturn(Math.ceil(40 / part)),
    ...grades(part === 1 ? [1, 2, 3] : [1]),
  ];
}

function occlusions(trials: number): string[] {
  const { verdicts, notShut } = scoreOcclusions(trials, 1);
  const reassured = [...verdicts.values()].reduce((sum, row) => sum + (row["no-difference"] ?? 0), 0);
  return [
    "## False reassurance: full occlusions",
    "",
    "The suspect artery is shut, by a narrowing without a way round or by a cuff, for 20 s each; rates 45 to 145 /min, one in seven in fibrillation, warm to cold.",
    "",
    tableOf(
      ["at the suspect side", ...verdictNames.map((name) => `\`${name}\``)],
      [...verdicts].map(([kind, row]) => [kind, ...verdictNames.map((name) => row[name] ?? 0)]),
    ),
    "",
    `\`no-difference\`: **${reassured} of ${trials}**${reassured === 0 ? `; the true share is below ${percent(1 - 0.05 ** (1 / trials), 2)} (95 %)` : ""}. Trials in which the model let a pulse through: ${notShut}.`,
    "",
  ];
}

function detection(repeats: number): string[] {
  const cells = scoreDetection(repeats);
  return [
    "## How small a pulse is found",
    "",
    `A cold and colder finger beside a warm one, ${repeats} people a row, 20 s, in three lights (photon noise of one sample 0.013, 0.04 and 0.09 % of the light).`,
    "Found: presence with the sound side's beats as reference at p < 0.001.",
    "",
    tableOf(
      ["light, nA", "true PI, %", "found", ...captureGrades.map((grade) => `\`${grade}\``)],
      cells.map(({ photocurrent, perfusionIndex, found, trials, grades }) => [
        photocurrent,
        decimals(perfusionIndex, 2),
        `${found} of ${trials}`,
        ...captureGrades.map((grade) => grades[grade]),
      ]),
    ),
    "",
  ];
}

function timing(persons: number): string[] {
  return [
    "## When a pulse comes",
    "",
    "Found minus true time of foot and top, 50 s a person, and the least spread any method could reach for one beat of known shape (Cramér–Rao).",
    "The top is flat, so noise moves it far; the foot of a filtered trace lies a little late, the same on both sides.",
    "",
    tableOf(
      ["light, nA", "beats", "missed", "extra", "foot, ms", "spread", "top, ms", "spread", "bound, ms"],
      scoreTiming(persons).map((row) => [
        row.photocurrent,
        row.beats,
        row.missed,
        row.extra,
        decimals(row.footBias, 1),
        decimals(row.footSpread, 1),
        decimals(row.peakBias, 1),
        decimals(row.peakSpread, 1),
        decimals(row.bound, 2),
      ]),
    ),
    "",
  ];
}

function cuffReturn(repeats: number): string[] {
  return [
    "## Return of the wave under a cuff, against the true systolic of that beat",
    "",
    `Cuff up in 4 s, down at a steady rate, ${repeats} deflations a row. Error: cuff pressure at the first beat the loss watch names, minus that beat's own upstream peak.`,
    "Beside it the same for the model's first beat above a true PI of 0.05 %, which no detector could beat.",
    "",
    tableOf(
      ["choke, mmHg", "rate, /min", "down, mmHg/s", "bias, mmHg", "SD", "missed", "first true beat, bias"],
      scoreCuffReturn(repeats).map((row) => [
        row.chokePressure,
        row.heart,
        row.deflation,
        decimals(row.bias, 1),
        decimals(row.spread, 1),
        row.missed,
        decimals(row.modelBias, 1),
      ]),
    ),
    "",
  ];
}

function grades(seeds: readonly number[]): string[] {
  return chokePressures.flatMap((choke) => {
    const table = scorePracticeGrades(seeds, choke);
    return [
      `## Grades over all scenarios, choke pressure ${choke} mmHg`,
      "",
      "Windows of 5 s by what was true throughout them; weak is a true PI under 0.1 %, mixed is more than one truth in a window.",
      "",
      tableOf(
        ["truth", ...captureGrades.map((grade) => `\`${grade}\``)],
        truths.map((truth) => [truth, ...captureGrades.map((grade) => table[truth][grade])]),
      ),
      "",
    ];
  });
}
