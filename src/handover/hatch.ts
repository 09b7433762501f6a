/** Hatches, so that meaning survives red light, grey printing and colour blindness. */
import { element, line } from "./svg.js";

/** A pattern of slanted strokes, `gap` px apart; refer to it as `url(#id)`. */
export function hatchPattern(id: string, ink: string, gap: number, width: number, crossed = false): string {
  const stroke = { stroke: ink, "stroke-width": width };
  const strokes = [line([0, 0], [0, gap], stroke), crossed ? line([0, 0], [gap, 0], stroke) : ""];
  return element(
    "pattern",
    { id, width: gap, height: gap, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
    ...strokes,
  );
}
