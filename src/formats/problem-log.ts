/** Collects problems of one recording without letting a damaged file fill the memory with them. */
import type { Problem, ProblemWeight } from "../model/index.js";

export interface ProblemLog {
  /** In order of discovery; grows. */
  readonly problems: readonly Problem[];
  add(code: string, weight: ProblemWeight, where: string, expected: string, found: string): void;
}

/** @param most problems of one code listed in full; the next one says that there are more */
export function createProblemLog(most = 50): ProblemLog {
  const problems: Problem[] = [];
  const counts = new Map<string, number>();
  return {
    problems,
    add(code, weight, where, expected, found) {
      const count = (counts.get(code) ?? 0) + 1;
      counts.set(code, count);
      if (count <= most) {
        problems.push({ code, weight, where, expected, found });
      } else if (count === most + 1) {
        problems.push({
          code: "further-problems",
          weight,
          where,
          expected: `at most ${most} of \`${code}\``,
          found: "more, not listed",
        });
      }
    },
  };
}
