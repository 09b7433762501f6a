/**
 * The waterline: the sound side's pulses rise above a level line, the suspect side's hang mirrored
 * below it, on one time axis and, where gains are known, one scale. Symmetry is seen before a word is read.
 */
import type { CaptureGrade } from "../model/index.js";
import { gradeMark, gradeMeanings } from "./grade-mark.js";
import { hatchPattern } from "./hatch.js";
import { inks } from "./inks.js";
import { fitText, lettering, textWidth } from "./lettering.js";
import { cannotSeePiece, headPiece, margin, type Piece, pageOf, pageWidth, smallPiece } from "./page.js";
import { type SideRow, sideTable } from "./side-table.js";
import { element, line } from "./svg.js";
import { quantile, raiseFromLevel, type Trace } from "./trace.js";
import { areaPath, linePath } from "./trace-path.js";

export interface WaterlineSide {
  /** Side and digit in words, or that nobody has stated them (S4). */
  readonly name: string;
  /** Over its column of the table, e.g. `right, sound`. */
  readonly head: string;
  /** After its name on its half; `sound` or `suspect` where it is left out. */
  readonly role?: string;
  readonly capture: CaptureGrade;
  /** Systole upward. Both sides' traces are equally long. */
  readonly trace: Trace;
  /** Feet of the beats, seconds on the trace's own clock. */
  readonly feet: readonly number[];
  /** Mean light in the trace's unit; `null` when its gain is unknown and size means nothing (S3). */
  readonly lightLevel: number | null;
}

export interface WaterlinePicture {
  readonly sentence: string;
  /** Where it comes from, e.g. the file names. */
  readonly context: string;
  readonly sound: WaterlineSide;
  readonly suspect: WaterlineSide;
  /** Whether both traces ran on one clock, so that lateness can be seen. */
  readonly together: boolean;
  readonly rows: readonly SideRow[];
  /** Clauses; never empty. */
  readonly cannotSee: readonly string[];
  readonly couldBeWrong: readonly string[];
}

const frameHeight = 290;
/** Left of it stand the scale or the words that there is none. */
const plotLeft = 40;
const plotWidth = pageWidth - plotLeft;
const level = 136;
const half = 104;

/** Heights in a shared unit, or each side's own if amplitudes may not be compared. */
interface Half {
  readonly side: WaterlineSide;
  readonly raised: Trace;
  /** Height that fills the half. */
  readonly full: number;
}

/** Percent of the light where the level is known; the trace as it is otherwise. */
function heights(side: WaterlineSide, comparable: boolean): Half {
  const raised = raiseFromLevel(side.trace, side.feet);
  const unit = comparable && side.lightLevel !== null ? 100 / side.lightLevel : 1;
  const values = raised.values.map((value) => value * unit);
  const tall = (quantile(values, 0.995) ?? 0) * 1.06;
  return { side, raised: { ...raised, values }, full: tall > 0 ? tall : 1 };
}

const mayCompare = (picture: WaterlinePicture) =>
  picture.sound.lightLevel !== null && picture.suspect.lightLevel !== null;

/** Largest of 1, 2, 5 × 10ⁿ that is at most `value`. */
function roundScale(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const step = [5, 2, 1].find((digit) => digit * power <= value) ?? 1;
  return step * power;
}

function timeToX(time: number, span: { readonly from: number; readonly to: number }): number {
  return plotLeft + (plotWidth * (time - span.from)) / (span.to - span.from);
}

/** A side without a wave must not fill its half with magnified noise. */
const shownShare = (grade: CaptureGrade) => (grade === "solid" || grade === "shaky" ? 1 : 0.16);

function drawHalf(part: Half, full: number, down: boolean, ownScale: boolean): string {
  const { side, raised } = part;
  const share = ownScale ? shownShare(side.capture) : 1;
  const direction = down ? 1 : -1;
  const plot = {
    x: (time: number) => timeToX(time, raised),
    y: (value: number) => level + direction * Math.min(1.12, (value / full) * share) * half,
  };
  const ink = down ? inks.suspect : inks.sound;
  if (side.capture === "off") return "";
  const faint = side.capture === "unreadable" ? 0.45 : undefined;
  const area = areaPath(raised, plot, level);
  if (area === "") return "";
  const fill = down ? "url(#suspect-hatch)" : ink;
  return (
    element("path", { d: area, fill, "fill-opacity": down ? undefined : 0.82, opacity: faint }) +
    element("path", {
      d: linePath(raised, plot),
      fill: "none",
      stroke: ink,
      "stroke-width": 1.8,
      "stroke-linejoin": "round",
      opacity: faint,
    })
  );
}

/** Name and grade of a side on its half of the frame. */
function drawName(side: WaterlineSide, down: boolean): string {
  const ink = down ? inks.suspect : inks.sound;
  const y = down ? frameHeight - 32 : 22;
  const grade = side.capture;
  const wordWidth = textWidth(grade, 14, true);
  const role = side.role ?? (down ? "suspect" : "sound");
  const name = side.name === "" ? `site not stated, ${role}` : `${side.name}, ${role}`;
  return (
    lettering(fitText(name, 15, pageWidth - 2 * margin - wordWidth - 30, true), margin, y, {
      size: 15,
      bold: true,
      ink,
    }) +
    gradeMark(grade, pageWidth - margin - wordWidth - 12, y - 5, 12, inks.ink) +
    lettering(grade, pageWidth - margin, y, { bold: true, anchor: "end" })
  );
}

/** Words on a patch of sheet, so that they stay legible over a trace. */
function stamp(text: string, x: number, y: number): string {
  const width = textWidth(text, 14) * 1.06 + 12;
  return (
    element("rect", {
      x: x - width / 2,
      y: y - 15,
      width,
      height: 21,
      fill: inks.sheet,
      stroke: inks.soft,
      "stroke-width": 1,
    }) + lettering(text, x, y, { anchor: "middle" })
  );
}

function drawTimeAxis(duration: number): string {
  const step = duration <= 10 ? 1 : 2;
  const parts: string[] = [];
  for (let time = step; time < duration - 0.3; time += step) {
    const x = timeToX(time, { from: 0, to: duration });
    parts.push(
      line([x, frameHeight - 24], [x, frameHeight - 19], { stroke: inks.soft }),
      lettering(String(time), x, frameHeight - 5, { anchor: "middle", ink: inks.soft }),
    );
  }
  parts.push(lettering("s", pageWidth - 6, frameHeight - 5, { anchor: "end", ink: inks.soft }));
  return parts.join("");
}

function drawFrame(picture: WaterlinePicture): Piece {
  const comparable = mayCompare(picture);
  const sound = heights(picture.sound, comparable);
  const suspect = heights(picture.suspect, comparable);
  const shared = Math.max(sound.full, suspect.full);
  const { from, to } = picture.sound.trace;
  const x = (time: number) => timeToX(time, picture.sound.trace);
  const hairEnd = picture.together ? frameHeight - 50 : level;
  const hairlines = picture.sound.feet
    .filter((time) => time >= from && time < to)
    .map((time) => line([x(time), 30], [x(time), hairEnd], { stroke: inks.rule, "stroke-width": 1.2 }));
  const own = picture.suspect.trace;
  const ticks = picture.suspect.feet
    .filter((time) => time >= own.from && time < own.to)
    .map((time) => {
      const at = timeToX(time, own);
      return line([at, level], [at, level + 9], { stroke: inks.suspect, "stroke-width": 2 });
    });
  const parts = [
    element("rect", { width: pageWidth, height: frameHeight, fill: inks.sheet }),
    ...hairlines,
    drawHalf(sound, comparable ? shared : sound.full, false, !comparable),
    drawHalf(suspect, comparable ? shared : suspect.full, true, !comparable),
    line([plotLeft, level], [pageWidth, level], {
      stroke: inks.ink,
      "stroke-width": 2.4,
      "stroke-dasharray": comparable ? undefined : "2 5",
    }),
    ...ticks,
    drawName(picture.sound, false),
    drawName(picture.suspect, true),
    drawTimeAxis(to - from),
  ];
  parts.push(comparable ? scaleBar(shared) : shapeOnly);
  for (const [side, y] of [
    [picture.sound, level - 50],
    [picture.suspect, level + 62],
  ] as const) {
    if (side.capture === "off" || side.capture === "unreadable") {
      parts.push(stamp(gradeMeanings[side.capture], pageWidth / 2, y));
    }
  }
  return { height: frameHeight + 6, markup: parts.join("") };
}

function scaleBar(shared: number): string {
  const unit = roundScale(shared * 0.75);
  const height = (unit / shared) * half;
  const x = plotLeft - 6;
  const stroke = { stroke: inks.ink, "stroke-width": 1.5 };
  const bar = (sign: number) =>
    line([x, level], [x, level + sign * height], stroke) +
    line([x - 5, level + sign * height], [x, level + sign * height], stroke);
  // Number over sign: side by side they would reach into the trace.
  const words = [String(unit), "%"].map((text, i) =>
    lettering(text, x + 3, level - height - 20 + 15 * i, { anchor: "end" }),
  );
  return `${bar(-1)}${bar(1)}${words.join("")}`;
}

/** Stands where the scale would stand. */
const shapeOnly = element(
  "g",
  { transform: `rotate(-90 24 ${level})` },
  lettering("shape only", 24, level + 5, { anchor: "middle", bold: true }),
);

/** A page that fits in a hand: the first few, and how many more there are. */
function firstFew(items: readonly string[]): readonly string[] {
  const most = 4;
  if (items.length <= most + 1) return items;
  return [...items.slice(0, most), `and ${items.length - most} more, in the written answer`];
}

/** The whole page as SVG. */
export function waterlinePicture(picture: WaterlinePicture): string {
  const comparable = mayCompare(picture);
  const notes = [
    comparable
      ? "Both halves on one scale, in per cent of the light."
      : "Each half has its own scale: only rhythm, timing and shape may be read.",
    picture.together
      ? "Fine lines: beats of the sound side; copper ticks: those of the suspect side."
      : "Not recorded together: whether the wave comes later cannot be seen here.",
  ];
  const behind = [
    { lead: "What this can't see", items: picture.cannotSee },
    { lead: "What would make it wrong", items: firstFew(picture.couldBeWrong) },
  ];
  return pageOf(picture.sentence, hatchPattern("suspect-hatch", inks.suspectHatch, 5, 3), [
    headPiece(picture.context, picture.sentence),
    drawFrame(picture),
    smallPiece(notes.join(" ")),
    sideTable([picture.sound.head, picture.suspect.head], picture.rows),
    { height: 10, markup: "" },
    cannotSeePiece(behind),
  ]);
}
