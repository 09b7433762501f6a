import { expect, test } from "vitest";
import { confuse } from "./score-grades.js";

const window = (from: number, to: number, capture: "solid" | "shaky" | "off") => ({ from, to, capture });

test("a labelled stretch takes the grade that fills most of it", () => {
  const table = confuse(
    [window(0, 6, "solid"), window(6, 12, "shaky"), window(12, 15, "off")],
    [
      { from: 0, to: 5, label: "good" },
      { from: 5, to: 10, label: "doubtful" },
      { from: 10, to: 15, label: "unreadable" },
      { from: 20, to: 25, label: "none" },
    ],
  );
  expect(table.good.solid).toBe(1);
  expect(table.doubtful.shaky).toBe(1);
  expect(table.unreadable.off).toBe(1);
  expect(table.none.ungraded).toBe(1);
});

test("of two equal shares the less believable counts", () => {
  const table = confuse(
    [window(0, 2.5, "solid"), window(2.5, 5, "shaky")],
    [{ from: 0, to: 5, label: "good" }],
  );
  expect(table.good).toMatchObject({ solid: 0, shaky: 1 });
});
