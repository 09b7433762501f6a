/** Text in pictures: its width before it is drawn, lines that fit, and the element that draws it. */
import { boldWidths, firstCode, regularWidths } from "./font-widths.js";
import { inks, smallType } from "./inks.js";
import { element, escapeXml } from "./svg.js";

/** Guess for glyphs outside the table: common punctuation and accents fit in it, wide scripts get a full em. */
const widthElsewhere = 700;

/**
 * Width in px of `text` at `size` px. Other fonts that stand in for ours may be up to a tenth wider.
 */
export function textWidth(text: string, size: number, bold = false): number {
  const widths = bold ? boldWidths : regularWidths;
  let sum = 0;
  for (const letter of text) {
    const code = letter.codePointAt(0) as number;
    sum += widths[code - firstCode] || (code >= 0x2e80 ? 1000 : widthElsewhere);
  }
  return (sum * size) / 1000;
}

/** Cuts at the end, with an ellipsis, until it fits. */
export function fitText(text: string, size: number, width: number, bold = false): string {
  if (textWidth(text, size, bold) <= width) return text;
  const letters = [...text];
  while (letters.length > 0 && textWidth(`${letters.join("")}…`, size, bold) > width) letters.pop();
  return `${letters.join("").trimEnd()}…`;
}

/** Lines no wider than `width`, broken at spaces; a word longer than a line is broken anywhere. */
export function wrapText(text: string, size: number, width: number, bold = false): string[] {
  const lines: string[] = [];
  let current = "";
  const fits = (candidate: string) => textWidth(candidate, size, bold) <= width;
  for (const word of text.split(/\s+/).filter((part) => part !== "")) {
    const joined = current === "" ? word : `${current} ${word}`;
    if (fits(joined)) {
      current = joined;
      continue;
    }
    if (current !== "") lines.push(current);
    current = "";
    for (const letter of word) {
      if (current !== "" && !fits(current + letter)) {
        lines.push(current);
        current = "";
      }
      current += letter;
    }
  }
  if (current !== "") lines.push(current);
  return lines;
}

export interface Lettering {
  readonly size?: number;
  readonly bold?: boolean;
  readonly ink?: string;
  readonly anchor?: "start" | "middle" | "end";
  readonly struck?: boolean;
}

/** One line of text with its baseline at `y`. */
export function lettering(text: string, x: number, y: number, style: Lettering = {}): string {
  return element(
    "text",
    {
      x,
      y,
      "font-size": style.size ?? smallType,
      "font-weight": style.bold ? "700" : undefined,
      fill: style.ink ?? inks.ink,
      "text-anchor": style.anchor === "start" ? undefined : style.anchor,
      "text-decoration": style.struck ? "line-through" : undefined,
    },
    // The picture font has no subscript two.
    escapeXml(text.replaceAll("₂", "2")),
  );
}

/** Lines one under the other, the first baseline at `y`. */
export function letteringLines(
  lines: readonly string[],
  x: number,
  y: number,
  lead: number,
  style: Lettering = {},
): string {
  return lines.map((text, i) => lettering(text, x, y + i * lead, style)).join("");
}
