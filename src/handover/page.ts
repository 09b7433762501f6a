/**
 * The sheet every picture stands on: width of a phone held upright, the sentence first, what it
 * cannot see behind a double copper rule, and who decides (S13) at the foot.
 */
import { fontFamily, inks, smallType } from "./inks.js";
import { lettering, letteringLines, textWidth, wrapText } from "./lettering.js";
import { element, escapeXml, line } from "./svg.js";

/** px; nothing is smaller than 14 px at this width, so it reads on the narrowest phones. */
export const pageWidth = 360;
export const margin = 18;
export const columnWidth = pageWidth - 2 * margin;

/** Said on every page (S13). */
export const decidesLine =
  "Informs, does not decide: local protocol, medical direction and licensed judgement come first.";

/** A piece of the page: markup drawn from its own top, and how tall it is. */
export interface Piece {
  readonly height: number;
  /** Markup with the piece's top at y = 0. */
  readonly markup: string;
}

const sentenceSize = 28;
const mostSentenceLines = 5;
const restSize = 19;

/** A sentence too long for large type keeps its first clause large; the rest follows smaller. */
function splitSentence(sentence: string): readonly [string, string] {
  if (wrapText(sentence, sentenceSize, columnWidth, true).length <= mostSentenceLines) return [sentence, ""];
  const match = /^(.{4,80}?[:.;,])\s+(.+)$/s.exec(sentence);
  return match === null ? [sentence, ""] : [match[1] as string, match[2] as string];
}

/** The sentence in large type, the line of context above it. */
export function headPiece(context: string, sentence: string): Piece {
  const [first, rest] = splitSentence(sentence);
  const large = wrapText(first, sentenceSize, columnWidth, true);
  const small = wrapText(rest, restSize, columnWidth);
  const place = wrapText(context, smallType, columnWidth - 76);
  const top = 26 + Math.max(1, place.length) * 18 + 24;
  const below = top + (large.length - 1) * 33 + 30;
  const markup =
    lettering("Limbtide", margin, 28, { bold: true, size: 15 }) +
    place
      .map((text, i) => lettering(text, pageWidth - margin, 28 + i * 18, { ink: inks.soft, anchor: "end" }))
      .join("") +
    letteringLines(large, margin, top, 33, { size: sentenceSize, bold: true }) +
    letteringLines(small, margin, below, 26, { size: restSize });
  const last = small.length === 0 ? below - 30 : below + (small.length - 1) * 26;
  return { height: last + 14, markup };
}

/** Lists behind a double copper rule, each with bold words over it. Empty lists are left out. */
export function cannotSeePiece(
  lists: readonly { readonly lead: string; readonly items: readonly string[] }[],
): Piece {
  const left = margin + 16;
  const width = pageWidth - margin - left;
  let y = 18;
  const parts: string[] = [];
  for (const { lead, items } of lists.filter((list) => list.items.length > 0)) {
    parts.push(lettering(lead, left, y, { size: 15, bold: true }));
    y += 22;
    for (const item of items) {
      const lines = wrapText(item.charAt(0).toUpperCase() + item.slice(1), 15, width);
      parts.push(letteringLines(lines, left, y, 19, { size: 15 }));
      y += 19 * lines.length + 5;
    }
    y += 6;
  }
  const height = y - 20;
  const rule = (x: number) => line([x, 0], [x, height], { stroke: inks.suspect, "stroke-width": 2 });
  return { height: height + 12, markup: rule(margin + 1) + rule(margin + 6) + parts.join("") };
}

/** Small soft text across the page. */
export function smallPiece(text: string): Piece {
  const lines = wrapText(text, smallType, columnWidth);
  return {
    height: 20 * lines.length + 8,
    markup: letteringLines(lines, margin, 16, 20, { ink: inks.soft }),
  };
}

/** The signs in use with their words, as many on a line as fit. */
export function legendPiece(
  entries: readonly { readonly mark: (x: number, y: number) => string; readonly text: string }[],
): Piece {
  let x = margin;
  let y = 12;
  const parts: string[] = [];
  for (const { mark, text } of entries) {
    const lines = wrapText(text, smallType, columnWidth - 22);
    const width = 22 + Math.max(...lines.map((words) => textWidth(words, smallType)));
    if (x > margin && x + width > pageWidth - margin) {
      x = margin;
      y += 22;
    }
    parts.push(mark(x + 7, y) + letteringLines(lines, x + 20, y + 5, 20));
    if (lines.length > 1) y += 20 * (lines.length - 1);
    x += width + 16;
  }
  return { height: y + 18, markup: parts.join("") };
}

/**
 * A whole SVG document: the pieces under each other, the line of S13 last.
 *
 * @param title what a screen reader says for the picture
 */
export function pageOf(title: string, defs: string, pieces: readonly Piece[]): string {
  let y = 0;
  const body: string[] = [];
  for (const piece of [...pieces, smallPiece(decidesLine)]) {
    body.push(element("g", { transform: `translate(0 ${Math.round(y)})` }, piece.markup));
    y += piece.height;
  }
  const height = Math.ceil(y + 10);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      width: pageWidth,
      height,
      viewBox: `0 0 ${pageWidth} ${height}`,
      "font-family": fontFamily,
      role: "img",
    },
    `<title>${escapeXml(title)}</title>`,
    `<defs>${defs}</defs>`,
    element("rect", { width: pageWidth, height, fill: inks.paper }),
    ...body,
  )}\n`;
}
