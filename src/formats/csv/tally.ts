/** Problems of one table, collapsed: the first place and how often, never one entry per row. */
import type { Problem, ProblemWeight } from "../../model/index.js";

export interface Tally {
  /** Grows; an entry is replaced when its count is known better. */
  readonly problems: Problem[];
  /** Adds or, for a `key` already there, replaces if seen more often than before. */
  report(key: string, times: number, problem: Problem): void;
}

export function createTally(): Tally {
  const problems: Problem[] = [];
  const places = new Map<string, { at: number; times: number }>();
  return {
    problems,
    report(key, times, problem) {
      const known = places.get(key);
      if (known === undefined) {
        places.set(key, { at: problems.length, times });
        problems.push(problem);
      } else if (times > known.times) {
        problems[known.at] = problem;
        known.times = times;
      }
    },
  };
}

export function problem(
  code: string,
  weight: ProblemWeight,
  where: string,
  expected: string,
  found: string,
): Problem {
  return { code, weight, where, expected, found };
}

/** `once`, `12 times`. */
export function times(count: number): string {
  return count === 1 ? "once" : `${count} times`;
}
