/** The small table under a picture: a row per measure, sound side and suspect side in their inks. */
import type { CaptureGrade } from "../model/index.js";
import { gradeMark } from "./grade-mark.js";
import { inks } from "./inks.js";
import { fitText, lettering, textWidth, wrapText } from "./lettering.js";
import { columnWidth, margin, type Piece, pageWidth } from "./page.js";
import { line } from "./svg.js";

/** One value as it is shown. */
export interface Cell {
  readonly text: string;
  /** Not believable: struck through, and said so (S2). */
  readonly struck?: boolean;
  /** Drawn before the text when the cell is a grade. */
  readonly grade?: CaptureGrade;
}

export interface SideRow {
  readonly label: string;
  readonly sound: Cell;
  readonly suspect: Cell;
}

const size = 15;
const soundEdge = margin + 206;
const suspectEdge = pageWidth - margin;
const rowHeight = 36;

function drawCell(cell: Cell, edge: number, y: number, room: number): string {
  const text = fitText(cell.text, size, room, true);
  const mark =
    cell.grade === undefined
      ? ""
      : gradeMark(cell.grade, edge - textWidth(text, size, true) - 12, y - 5, 11, inks.ink);
  const shown = lettering(text, edge, y, {
    size,
    bold: !cell.struck,
    anchor: "end",
    struck: cell.struck === true,
    ink: cell.struck ? inks.soft : inks.ink,
  });
  const said = cell.struck ? lettering("not believable", edge, y + 17, { anchor: "end", ink: inks.ink }) : "";
  return mark + shown + said;
}

/** @param heads words over the two columns, e.g. `right, sound` */
export function sideTable(heads: readonly [string, string], rows: readonly SideRow[]): Piece {
  const parts: string[] = [
    lettering(fitText(heads[0], size, 120, true), soundEdge, 20, {
      size,
      bold: true,
      anchor: "end",
      ink: inks.sound,
    }),
    lettering(fitText(heads[1], size, 112, true), suspectEdge, 20, {
      size,
      bold: true,
      anchor: "end",
      ink: inks.suspect,
    }),
  ];
  let y = 32;
  for (const row of rows) {
    parts.push(line([margin, y], [margin + columnWidth, y], { stroke: inks.rule }));
    const labels = wrapText(row.label, size, 104);
    const tall = Math.max(labels.length, row.sound.struck || row.suspect.struck ? 2 : 1);
    parts.push(
      ...labels.map((text, i) => lettering(text, margin, y + 23 + i * 17, { size, ink: inks.soft })),
      drawCell(row.sound, soundEdge, y + 23, 100),
      drawCell(row.suspect, suspectEdge, y + 23, 112),
    );
    y += rowHeight + (tall - 1) * 17;
  }
  return { height: y + 8, markup: parts.join("") };
}
