/** `compare` for a person: sentence, table, why, what would make it wrong, what it can't see, who decides. */
import { type Cell, decidesLine, gradeSigns } from "../handover/index.js";
import { type Comparison, type ComparisonReason, figure, latenessWords, rolesOf } from "../limb/index.js";
import { type Estimate, siteName } from "../model/index.js";
import type { SideComparison } from "./engine.js";
import type { OpenedSource } from "./open-source.js";
import type { Paint } from "./paint.js";
import { plainText } from "./plain-text.js";
import { problemLines } from "./problem-lines.js";
import { capital } from "./read-picture.js";
import { sideRows } from "./side-rows.js";
import { wrapLines } from "./wrap-lines.js";

const labelWidth = 20;
/** Letters between the two columns at least. */
const columnGap = 3;

export interface CompareText {
  readonly sound: OpenedSource;
  readonly suspect: OpenedSource;
  readonly result: SideComparison;
  readonly paint: Paint;
  readonly width: number;
}

function cellParts(cell: Cell): readonly [string, string, string] {
  const sign = cell.grade === undefined ? "" : `${gradeSigns[cell.grade]} `;
  return [sign, cell.text, cell.struck ? " not believable" : ""];
}

const lengthOf = (cell: Cell) => cellParts(cell).join("").length;

function cellText(cell: Cell, paint: Paint, width: number): string {
  const [sign, text, said] = cellParts(cell);
  return `${sign}${cell.struck ? paint.struck(text) : text}${said}${" ".repeat(Math.max(0, width - lengthOf(cell)))}`;
}

function estimateText(estimate: Estimate, unit: string): string {
  return `${figure(estimate.value)}${unit} (95 %: ${figure(estimate.low)} to ${figure(estimate.high)}${unit})`;
}

/** The clause, and the threshold behind it with its source and support (S9). */
export function reasonText(reason: ComparisonReason): string {
  if (reason.rule === null) return reason.words;
  const { comparator, value, unit, source, support } = reason.rule;
  const limit = `${comparator} ${value}${unit === "1" ? "" : ` ${unit}`}`;
  return `${reason.words} [limit ${limit}; ${source.startsWith(support) ? "" : `${support}: `}${source}]`;
}

/** What is known to disturb, then one line for all that was not stated; JSON keeps them apart. */
export function doubtLines({ disturbedBy, notStated }: Comparison): string[] {
  if (notStated.length === 0) return [...disturbedBy];
  return [...disturbedBy, `not stated, and each could change this: ${notStated.join("; ")}`];
}

export function compareText({ sound, suspect, result, paint, width }: CompareText): string {
  const { comparison } = result;
  const roles = rolesOf(comparison.sound, comparison.suspect);
  const columnNames = (["sound", "suspect"] as const).map((role) => {
    const site = comparison[role];
    return site === null ? `${role} (site not stated)` : `${roles[role]}: ${siteName(site)}`;
  }) as [string, string];
  const rows = sideRows(result.sound, result.suspect);
  const cellWidth = columnGap + Math.max(columnNames[0].length, ...rows.map(({ sound }) => lengthOf(sound)));
  const pair = (label: string, a: string, b: string) => `  ${label.padEnd(labelWidth)}${a}${b}`.trimEnd();
  const widest = Math.max(columnNames[1].length, ...rows.map(({ suspect }) => lengthOf(suspect)));
  const beside = 2 + labelWidth + cellWidth + widest <= width;
  const roleWidth = Math.max(roles.sound.length, roles.suspect.length) + 2;
  const under = (role: "sound" | "suspect", text: string) => `    ${roles[role].padEnd(roleWidth)}${text}`;
  const named = (label: string, text: string) =>
    beside
      ? wrapLines(text, width, " ".repeat(2 + labelWidth), `  ${label.padEnd(labelWidth)}`)
      : `  ${label}\n${wrapLines(text, width, "    ")}`;
  const items = (texts: readonly string[]) => texts.map((text) => wrapLines(text, width, "    ", "  - "));
  const wrong = doubtLines(comparison);
  const unseen = ["What this can't see:", ...items(comparison.cannotSee)];
  // The mild verdict is never read without its limits (S1): they follow it at once, as a list.
  const mild = comparison.verdict === "no-difference";
  return [
    paint.bold(wrapLines(comparison.sentence.split(" This cannot see ")[0]!, width)),
    ...(mild ? unseen : []),
    `Verdict: ${comparison.verdict}, confidence ${comparison.confidence}.`,
    "",
    ...(beside
      ? [pair("", paint.sound(columnNames[0].padEnd(cellWidth)), paint.suspect(columnNames[1]))]
      : [wrapLines(columnNames[0], width, "    ", "  "), wrapLines(columnNames[1], width, "    ", "  ")]),
    ...rows.flatMap((row) =>
      beside
        ? [pair(row.label, cellText(row.sound, paint, cellWidth), cellText(row.suspect, paint, 0))]
        : [
            `  ${row.label}`,
            under("sound", cellText(row.sound, paint, 0)),
            under("suspect", cellText(row.suspect, paint, 0)),
          ],
    ),
    ...(comparison.piRatio === null
      ? []
      : [named("PI ratio", `${estimateText(comparison.piRatio, "")}, ${roles.suspect} over ${roles.sound}`)]),
    ...(comparison.delay === null
      ? []
      : [named("delay", `${roles.suspect} ${latenessWords(comparison.delay)} ${roles.sound}`)]),
    "",
    "Why:",
    ...items(comparison.reasons.map(reasonText)),
    ...(wrong.length > 0 ? ["What would make it wrong:", ...items(wrong)] : []),
    ...(mild ? [] : unseen),
    ...problemLines(result.problems, width),
    // File names are not broken, so that they can be copied.
    ...(beside
      ? [`${capital(roles.sound)}: ${sound.text}. ${capital(roles.suspect)}: ${suspect.text}.`]
      : [`${capital(roles.sound)}: ${sound.text}`, `${capital(roles.suspect)}: ${suspect.text}`]
    ).map((line) => paint.soft(plainText(line))),
    paint.soft(wrapLines(decidesLine, width)),
    "",
  ].join("\n");
}
