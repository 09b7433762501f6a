/** How well the capture grade does on a person who had no part in the choice of its main limits. */
import { captureLimits } from "../../src/pulse/capture-grade.js";
import { type GradedChannel, type GradeReport, gradeLabelled } from "./grade.js";

/** Settings tried when limits are chosen without a person; declared before any was scored. */
const grid = {
  mean: [0.9, 0.93, 0.96],
  min: [0.5, 0.7, 0.85],
  gap: [1.4, 1.6, 2],
  rest: [0.3, 0.42, 0.5],
} as const;

export interface LeftOutReport {
  readonly goodSolid: number;
  readonly good: number;
  readonly badSolid: number;
  readonly bad: number;
  readonly doubtfulSolid: number;
  readonly doubtful: number;
  /** What was chosen without each person. */
  readonly chosen: readonly {
    readonly person: string;
    readonly limits: Readonly<Record<keyof typeof grid, number>>;
  }[];
}

/**
 * Chooses the main limits on all other persons and scores the one left out. Chosen is, of the settings with no bad
 * window solid and at least 97 % of the good ones, the one with the fewest doubtful solid, then the most good; if none
 * has 97 %, the one with the most good. The other limits stay, though they were set with all persons in view.
 */
export function gradeLeftOut(
  channels: readonly (GradedChannel & { readonly person: string })[],
): LeftOutReport {
  const settings = grid.mean.flatMap((mean) =>
    grid.min.flatMap((min) => grid.gap.flatMap((gap) => grid.rest.map((rest) => ({ mean, min, gap, rest })))),
  );
  const people = [...new Set(channels.map(({ person }) => person))];
  const scores = settings.map((setting) =>
    people.map((person) =>
      gradeLabelled(
        channels.filter((one) => one.person === person),
        { ...captureLimits, ...setting },
      ),
    ),
  );
  type Counted = Exclude<keyof LeftOutReport, "chosen">;
  const sum = (reports: readonly GradeReport[], key: Counted) =>
    reports.reduce((total, report) => total + report[key], 0);
  const left: GradeReport[] = [];
  const chosen = people.map((person, p) => {
    const rated = settings.map((limits, n) => {
      const others = scores[n]!.filter((_, q) => q !== p);
      return {
        n,
        limits,
        bad: sum(others, "badSolid"),
        good: sum(others, "goodSolid"),
        enough: sum(others, "goodSolid") >= 0.97 * sum(others, "good"),
        doubtful: sum(others, "doubtfulSolid"),
      };
    });
    rated.sort(
      (a, b) =>
        a.bad - b.bad ||
        Number(b.enough) - Number(a.enough) ||
        (a.enough ? a.doubtful - b.doubtful : 0) ||
        b.good - a.good ||
        a.n - b.n,
    );
    left.push(scores[rated[0]!.n]![p]!);
    return { person, limits: rated[0]!.limits };
  });
  return {
    goodSolid: sum(left, "goodSolid"),
    good: sum(left, "good"),
    badSolid: sum(left, "badSolid"),
    bad: sum(left, "bad"),
    doubtfulSolid: sum(left, "doubtfulSolid"),
    doubtful: sum(left, "doubtful"),
    chosen,
  };
}
