/** Capture grades by shape and word, never by colour alone. */
import type { CaptureGrade } from "../model/index.js";
import { coordinate, element, line } from "./svg.js";

/** Signs for text; pictures draw the same shapes, for not every font has them. */
export const gradeSigns: Readonly<Record<CaptureGrade, string>> = {
  solid: "◆",
  shaky: "◇",
  none: "○",
  off: "╳",
  unreadable: "▨",
};

/** What each grade means, in a few words. */
export const gradeMeanings: Readonly<Record<CaptureGrade, string>> = {
  solid: "pulses found, alike and regular in shape",
  shaky: "pulses likely, not to be trusted",
  none: "working probe, no pulse wave",
  off: "no working probe",
  unreadable: "movement or noise hides whatever is there",
};

/** The sign of a grade as a drawing, `size` px wide around its middle. */
export function gradeMark(grade: CaptureGrade, x: number, y: number, size: number, ink: string): string {
  const r = size / 2;
  const open = { fill: "none", stroke: ink, "stroke-width": 1.6 };
  const [left, right, top, bottom] = [x - r, x + r, y - r, y + r].map(coordinate);
  const [midX, midY] = [x, y].map(coordinate);
  const diamond = `M${midX} ${top}L${right} ${midY}L${midX} ${bottom}L${left} ${midY}Z`;
  switch (grade) {
    case "solid":
      return element("path", { d: diamond, fill: ink });
    case "shaky":
      return element("path", { d: diamond, ...open });
    case "none":
      return element("circle", { cx: x, cy: y, r: r * 0.85, ...open });
    case "off": {
      const k = r * 0.8;
      return (
        line([x - k, y - k], [x + k, y + k], { stroke: ink, "stroke-width": 1.8 }) +
        line([x - k, y + k], [x + k, y - k], { stroke: ink, "stroke-width": 1.8 })
      );
    }
    case "unreadable": {
      const k = r * 0.85;
      const strokes = [-0.5, 0, 0.5].map((shift) => {
        const at = 2 * k * shift;
        const from = Math.max(-k, -k + at);
        const to = Math.min(k, k + at);
        return line([x + from, y - from + at], [x + to, y - to + at], { stroke: ink, "stroke-width": 1.2 });
      });
      return element("rect", { x: x - k, y: y - k, width: 2 * k, height: 2 * k, ...open }) + strokes.join("");
    }
  }
}
