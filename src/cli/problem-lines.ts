/** Problems with the data under an answer. */
import { describeProblem, type Problem } from "../model/index.js";
import { plainText } from "./plain-text.js";
import { wrapLines } from "./wrap-lines.js";

const most = 5;

/** A heading and the gravest few; nothing when there are none. */
export function problemLines(problems: readonly Problem[], width: number): string[] {
  if (problems.length === 0) return [];
  const sorted = [
    ...problems.filter((problem) => problem.weight !== "note"),
    ...problems.filter((problem) => problem.weight === "note"),
  ];
  const left = sorted.length - most;
  return [
    "Problems with the data:",
    ...sorted
      .slice(0, most)
      .map((problem) => wrapLines(plainText(describeProblem(problem)), width, "    ", "  - ")),
    ...(left > 0 ? [`  - and ${left} more; --json lists them all`] : []),
  ];
}
