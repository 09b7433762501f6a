/** `read` for a person: the sentence, a line a stretch, what it can't see, who decides. */
import { clockText, decidesLine, gradeSigns } from "../handover/index.js";
import { cannotSee } from "../limb/index.js";
import { captureGrades, type Site, siteName, type Window } from "../model/index.js";
import { kindName } from "./choose-channel.js";
import type { ChosenReference } from "./choose-reference.js";
import type { ChannelReading } from "./engine.js";
import { type GradedStretch, gradeSeconds, joinGrades } from "./grade-spans.js";
import type { OpenedSource } from "./open-source.js";
import type { Paint } from "./paint.js";
import { plainText } from "./plain-text.js";
import { problemLines } from "./problem-lines.js";
import { readSentence } from "./read-sentence.js";
import { reasonWords } from "./reason-words.js";
import { referenceLines } from "./reference-lines.js";
import { wrapLines } from "./wrap-lines.js";

/** A reading's page is no longer than a screen or two. */
const mostLines = 24;
/** Seconds; times are shown whole, so a shorter stretch would begin where it ends. */
const shortest = 0.5;

export interface ReadText {
  readonly source: OpenedSource;
  readonly site: Site | null;
  readonly reading: ChannelReading;
  readonly reference: ChosenReference | null;
  readonly paint: Paint;
  readonly width: number;
}

export function readText({ source, site, reading, reference, paint, width }: ReadText): string {
  const { channel } = source;
  const stretches = joinGrades(reading.windows).filter(({ from, to }) => to - from >= shortest);
  const shown = longest(stretches);
  const left = stretches.length - shown.length;
  const place = site === null ? "site not stated" : siteName(site);
  const unseen = cannotSee(null).join("; ");
  return [
    paint.bold(wrapLines(readSentence(site, reading.windows, reading.losses), width)),
    paint.soft(
      plainText(
        `${source.file}#${channel.name}: ${kindName(channel)}, ${Number(channel.rate.toFixed(2))} samples/s, ${place}`,
      ),
    ),
    "",
    ...shown.map((stretch) => stretchLine(stretch, paint, width)),
    ...(left > 0
      ? [`  and ${left} shorter stretches; --json lists every window`, sumsLine(reading.windows)]
      : []),
    `  ${beatsLine(reading)}`,
    ...referenceLines(reference, source, reading.heart).map((line) => wrapLines(line, width, "    ", "  ")),
    ...(channel.kind === "display-pleth"
      ? [wrapLines("No perfusion index: a display trace has no light level.", width, "  ", "  ")]
      : []),
    "",
    wrapLines(`What this can't see: ${unseen}.`, width),
    ...problemLines(reading.problems, width),
    paint.soft(wrapLines(decidesLine, width)),
    "",
  ].join("\n");
}

/** Seconds under each grade, when not every stretch is listed. */
function sumsLine(windows: readonly Window[]): string {
  const sums = gradeSeconds(windows);
  const used = captureGrades.filter((grade) => sums[grade] > 0);
  return `  in all: ${used.map((grade) => `${gradeSigns[grade]} ${grade} ${Math.round(sums[grade])} s`).join(", ")}`;
}

/** Beats outside solid stretches are told apart: noise has them as well (S2). */
function beatsLine({ beats, windows }: ChannelReading): string {
  const believed = windows.filter((window) => window.capture === "solid");
  const inside = beats.filter(({ peak }) =>
    believed.some(({ from, to }) => peak >= from && peak < to),
  ).length;
  return inside === beats.length
    ? `${inside} beats`
    : `${inside} beats in solid stretches, ${beats.length} in all`;
}

/** The longest stretches, in time order. */
function longest(stretches: readonly GradedStretch[]): readonly GradedStretch[] {
  if (stretches.length <= mostLines) return stretches;
  const kept = new Set(stretches.toSorted((a, b) => b.to - b.from - (a.to - a.from)).slice(0, mostLines));
  return stretches.filter((stretch) => kept.has(stretch));
}

/** Numbers and reason beside the grade, or under it where the line would run over. */
function stretchLine(stretch: GradedStretch, paint: Paint, width: number): string {
  const span = `${clockText(Math.round(stretch.from)).padStart(7)} – ${clockText(Math.round(stretch.to)).padEnd(7)}`;
  const grade = `${gradeSigns[stretch.capture]} ${stretch.capture.padEnd(10)}`;
  const numbers = [
    stretch.pulseRate === null ? null : `${Math.round(stretch.pulseRate)} /min`,
    stretch.perfusionIndex === null ? null : `PI ${stretch.perfusionIndex.toFixed(2)} %`,
  ].filter((text) => text !== null);
  const believed = stretch.capture === "solid";
  const text = numbers.join("  ");
  const plain = text === "" ? "" : believed ? text : `${text} not believable`;
  const why = stretch.reason === null ? "" : reasonWords(stretch.reason);
  const head = `  ${span}  ${grade}`;
  const rest = [plain, why].filter((part) => part !== "").join("; ");
  const line =
    `${head}  ${rest}`.length <= width
      ? `${head}  ${rest}`
      : `${head.trimEnd()}\n${wrapLines(rest, width, "      ")}`;
  // Struck last: what a terminal does not show has no width.
  return (believed || text === "" ? line : line.replace(text, paint.struck(text))).trimEnd();
}
