/**
 * The strip: a recording row by row, trace, beats and capture grade under each other, so that a
 * reader sees where it may be believed. Long recordings show the rows that matter, and say which.
 */
import type { CaptureGrade } from "../model/index.js";
import type { GradeSpan } from "./choose-rows.js";
import { clockText } from "./clock-text.js";
import { gradeMark, gradeMeanings } from "./grade-mark.js";
import { hatchPattern } from "./hatch.js";
import { inkOf, inks, type Role, smallType } from "./inks.js";
import { lettering, textWidth } from "./lettering.js";
import {
  cannotSeePiece,
  headPiece,
  legendPiece,
  margin,
  type Piece,
  pageOf,
  pageWidth,
  smallPiece,
} from "./page.js";
import { element, line } from "./svg.js";
import { quantile, type Trace } from "./trace.js";
import { linePath } from "./trace-path.js";

export interface StripRow {
  /** Systole upward; its span is the row's. */
  readonly trace: Trace;
  /** Peaks, seconds. */
  readonly beats: readonly number[];
}

export interface StripPicture {
  readonly sentence: string;
  /** File and channel. */
  readonly context: string;
  /** Side, digit and role in words, or that nobody has stated them (S4). */
  readonly site: string;
  readonly role: Role;
  /** All of one length, in time order, not necessarily adjoining. */
  readonly rows: readonly StripRow[];
  /** Of the whole recording, adjoining, neighbours of one grade already joined. */
  readonly grades: readonly GradeSpan[];
  /** Where a pulse went away and, if it did, came back. */
  readonly losses: readonly { readonly from: number; readonly back: number | null }[];
  /** Extra lines, e.g. that a row was left out. */
  readonly notes: readonly string[];
  /** What no reading of a pleth can see; clauses. */
  readonly cannotSee: readonly string[];
}

const traceTop = 20;
const traceHeight = 58;
const bandTop = traceTop + traceHeight + 12;
const bandHeight = 20;
const rowHeight = bandTop + bandHeight + 14;
const left = margin;
const width = pageWidth - 2 * margin;

/** Textures of the band; `bandGround` fills solid itself. */
const bandFill: Readonly<Record<CaptureGrade, string>> = {
  solid: "none",
  shaky: "url(#band-shaky)",
  none: inks.sheet,
  off: inks.sheet,
  unreadable: "url(#band-unreadable)",
};

function bandDefs(ink: string): string {
  return hatchPattern("band-shaky", ink, 7, 1.4) + hatchPattern("band-unreadable", inks.soft, 6, 1.6, true);
}

/** Ground of a stretch of the band; solid is the only one filled. */
function bandGround(grade: CaptureGrade, ink: string, box: Readonly<Record<string, number>>): string {
  if (grade !== "solid") return element("rect", { ...box, fill: bandFill[grade] });
  return element("rect", { ...box, fill: ink, "fill-opacity": 0.3 });
}

/** One stretch of the band; its word if there is room, else its sign, else its texture alone. */
function drawSpan(span: GradeSpan, ink: string, x1: number, x2: number, top: number): string {
  const room = x2 - x1;
  const middle = (x1 + x2) / 2;
  const y = top + bandHeight / 2;
  const place = { x: x1, y: top, width: room, height: bandHeight };
  const box =
    bandGround(span.capture, ink, place) +
    element("rect", { ...place, fill: "none", stroke: inks.ink, "stroke-width": 1 });
  const word = textWidth(span.capture, smallType, true) * 1.05 + 18;
  const patch = (patchWidth: number) =>
    element("rect", {
      x: middle - patchWidth / 2,
      y: top + 1,
      width: patchWidth,
      height: bandHeight - 2,
      fill: inks.sheet,
    });
  if (room >= word + 6) {
    return (
      box +
      patch(word + 4) +
      gradeMark(span.capture, middle - word / 2 + 7, y, 10, inks.ink) +
      lettering(span.capture, middle - word / 2 + 17, y + 5, { bold: true })
    );
  }
  if (room >= 16) return box + patch(14) + gradeMark(span.capture, middle, y, 10, inks.ink);
  return box;
}

function drawRow(picture: StripPicture, row: StripRow, scale: RowScale): string {
  const { from, to } = row.trace;
  const x = (time: number) => left + (width * (time - from)) / (to - from);
  const inside = (time: number) => time >= from && time < to;
  const ink = inkOf(picture.role);
  const step = to - from > 15 ? 5 : 1;
  const ticks: string[] = [];
  for (let time = Math.ceil(from / step) * step; time <= to; time += step) {
    const tall = time % (step * 2) === 0 ? 5 : 3;
    ticks.push(
      line([x(time), traceTop + traceHeight + 12], [x(time), traceTop + traceHeight + 12 - tall], {
        stroke: inks.soft,
      }),
    );
  }
  const beats = row.beats.filter(inside).map((time) => {
    const solid = isSolidAt(picture.grades, time);
    return line([x(time), solid ? traceTop - 4 : traceTop - 1], [x(time), traceTop + 2], {
      stroke: solid ? inks.ink : inks.soft,
      "stroke-width": 1.5,
    });
  });
  const grades = picture.grades
    .filter((span) => span.to > from && span.from < to)
    .map((span) => drawSpan(span, ink, x(Math.max(from, span.from)), x(Math.min(to, span.to)), bandTop));
  const losses = flags(
    picture.losses.flatMap((loss) => [
      ...(inside(loss.from) ? [{ x: x(loss.from), text: "wave lost" }] : []),
      ...(loss.back !== null && inside(loss.back) ? [{ x: x(loss.back), text: "back" }] : []),
    ]),
  );
  const plot = { x, y: scale.y };
  return [
    element("rect", { x: left, y: traceTop - 6, width, height: traceHeight + 18, fill: inks.sheet }),
    lettering(clockText(from), left, traceTop - 9, { ink: inks.soft }),
    lettering(clockText(to), left + width, traceTop - 9, { ink: inks.soft, anchor: "end" }),
    ...beats,
    element("path", {
      d: linePath(row.trace, plot),
      fill: "none",
      stroke: ink,
      "stroke-width": 1.3,
      "stroke-linejoin": "round",
    }),
    ...ticks,
    ...grades,
    losses,
  ].join("");
}

interface Flag {
  readonly x: number;
  readonly text: string;
}

const flagHeight = 18;
/** Words of flags close by stand under each other; beyond that a line stands alone. */
const flagRows = 3;

function flags(all: readonly Flag[]): string {
  const lines = all.map(({ x }) =>
    line([x, traceTop - 6], [x, bandTop], {
      stroke: inks.ink,
      "stroke-width": 1.5,
      "stroke-dasharray": "4 3",
    }),
  );
  const taken = Array<number>(flagRows).fill(Number.NEGATIVE_INFINITY);
  const words = all
    .toSorted((a, b) => a.x - b.x)
    .map(({ x, text }) => {
      const wide = textWidth(text, smallType, true) * 1.05 + 8;
      const start = x > pageWidth - margin - wide ? x - wide : x;
      const row = taken.findIndex((end) => end <= start);
      if (row < 0) return "";
      taken[row] = start + wide;
      return flagWords(text, start, wide, traceTop + 1 + row * flagHeight);
    });
  return lines.join("") + words.join("");
}

function flagWords(text: string, x: number, width: number, y: number): string {
  return (
    element("rect", { x, y, width, height: flagHeight - 1, fill: inks.sheet, "fill-opacity": 0.9 }) +
    lettering(text, x + 4, y + 13, { bold: true })
  );
}

interface RowScale {
  y(value: number): number;
}

const isSolidAt = (grades: readonly GradeSpan[], time: number) =>
  grades.some((span) => span.capture === "solid" && time >= span.from && time < span.to);

/** Of a row's values, or only of those under solid where there are any. */
function valuesOf({ trace }: StripRow, grades: readonly GradeSpan[]): { values: number[]; solid: boolean } {
  const all = Array.from(trace.values, (value, i) => ({ value, time: trace.times[i] as number }));
  const solid = all.filter(({ time }) => isSolidAt(grades, time));
  return {
    values: (solid.length > 0 ? solid : all).map(({ value }) => value),
    solid: solid.length > 0,
  };
}

/** Lowest and highest of a row but for a few outliers. */
const ends = (values: readonly number[]) =>
  [quantile(values, 0.005) ?? 0, quantile(values, 0.995) ?? 0] as const;

/**
 * One gain for all rows of a page, from what is solid if anything is, so that artefact does not flatten the
 * pulses. Each row has its own middle: over minutes the light level drifts by many pulse heights.
 */
function scalesOf({ rows, grades }: StripPicture): readonly RowScale[] {
  const all = rows.map((row) => valuesOf(row, grades));
  const anySolid = all.some(({ solid }) => solid);
  const ranges = all
    .filter(({ solid, values }) => (solid || !anySolid) && values.length > 0)
    .map(({ values }) => ends(values)[1] - ends(values)[0]);
  const tall = quantile(ranges, 0.8) ?? 0;
  const height = tall > 0 ? tall : 1;
  return all.map(({ values, solid }) => {
    const [low, high] = ends(values);
    const middle = solid || !anySolid ? (low + high) / 2 : (quantile(values, 0.5) ?? 0);
    return {
      y(value) {
        const share = Math.min(1.06, Math.max(-0.06, (value - middle) / height + 0.5));
        return traceTop + 4 + (traceHeight - 4) * (1 - share);
      },
    };
  });
}

function rowsPiece(picture: StripPicture): Piece {
  const scales = scalesOf(picture);
  const parts: string[] = [];
  let y = 6;
  let before: number | null = null;
  for (const [i, row] of picture.rows.entries()) {
    if (before !== null && row.trace.from > before + 1e-6) {
      const text = `${clockText(before)} to ${clockText(row.trace.from)} not drawn`;
      parts.push(
        line([margin, y + 8], [margin + 60, y + 8], { stroke: inks.soft, "stroke-dasharray": "2 5" }),
        lettering(text, margin + 70, y + 13, { ink: inks.soft }),
      );
      y += 28;
    }
    parts.push(element("g", { transform: `translate(0 ${y})` }, drawRow(picture, row, scales[i]!)));
    y += rowHeight;
    before = row.trace.to;
  }
  return { height: y, markup: parts.join("") };
}

/** The whole recording as one band, when not all of it is drawn. */
function overviewPiece(picture: StripPicture): Piece {
  const first = picture.grades[0];
  const last = picture.grades.at(-1);
  if (first === undefined || last === undefined) return { height: 0, markup: "" };
  const x = (time: number) => left + (width * (time - first.from)) / (last.to - first.from);
  const spans = picture.grades.map((span) =>
    bandGround(span.capture, inkOf(picture.role), {
      x: x(span.from),
      y: 24,
      width: Math.max(0.5, x(span.to) - x(span.from)),
      height: 14,
    }),
  );
  const windows = picture.rows.map(({ trace }) =>
    line([x(trace.from), 41], [Math.max(x(trace.to), x(trace.from) + 2), 41], {
      stroke: inks.ink,
      "stroke-width": 3,
    }),
  );
  return {
    height: 56,
    markup: [
      lettering(`${clockText(first.from)} to ${clockText(last.to)}, drawn where underlined`, left, 16, {
        ink: inks.soft,
      }),
      ...spans,
      element("rect", { x: left, y: 24, width, height: 14, fill: "none", stroke: inks.ink }),
      ...windows,
    ].join(""),
  };
}

/** The whole page as SVG. */
export function stripPicture(picture: StripPicture): string {
  const ink = inkOf(picture.role);
  const drawn = picture.rows.reduce((sum, { trace }) => sum + trace.to - trace.from, 0);
  const whole = (picture.grades.at(-1)?.to ?? 0) - (picture.grades[0]?.from ?? 0);
  const used = [...new Set(picture.grades.map((span) => span.capture))];
  const legend = legendPiece([
    ...used.map((grade) => ({
      mark: (x: number, y: number) => gradeMark(grade, x, y, 12, inks.ink),
      text: `${grade}: ${gradeMeanings[grade]}`,
    })),
    {
      mark: (x: number, y: number) => line([x, y - 5], [x, y + 5], { stroke: inks.ink, "stroke-width": 1.5 }),
      text: "a beat as found, short where not to be trusted",
    },
  ]);
  const pieces = [
    headPiece(picture.context, picture.sentence),
    { height: 26, markup: lettering(picture.site, margin, 14, { bold: true, size: 15, ink }) },
    ...(whole > drawn + 1 ? [overviewPiece(picture)] : []),
    rowsPiece(picture),
    legend,
    ...(picture.notes.length > 0 ? [smallPiece(picture.notes.join(" "))] : []),
    cannotSeePiece([{ lead: "What this can't see", items: picture.cannotSee }]),
  ];
  return pageOf(picture.sentence, bandDefs(ink), pieces);
}
