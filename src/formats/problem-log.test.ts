import { expect, test } from "vitest";
import { createProblemLog } from "./problem-log.js";

test("a flood of one code is cut, another code still comes through", () => {
  const log = createProblemLog(3);
  for (let n = 0; n < 1000; n++) log.add("gap", "note", `record ${n}`, "none", "one");
  log.add("overlap", "lost-part", "record 9", "none", "one");
  expect(log.problems.map(({ code }) => code)).toEqual(["gap", "gap", "gap", "further-problems", "overlap"]);
  expect(log.problems[3]).toMatchObject({ where: "record 3", weight: "note" });
});
