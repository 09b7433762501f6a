/** A problem log that tells each fault of a place once, however often the samples are walked. */
import type { ProblemLog } from "../problem-log.js";

export function onceLog(log: ProblemLog): ProblemLog {
  const told = new Set<string>();
  return {
    problems: log.problems,
    add(code, weight, where, expected, found) {
      const key = `${code}\n${where}`;
      if (told.has(key)) return;
      if (told.size < 100_000) told.add(key);
      log.add(code, weight, where, expected, found);
    },
  };
}
