import { expect, test } from "vitest";
import { readTable } from "./csv/testing/read-table.js";
import { labelFactor } from "./label-factor.js";

// What "x10" in a label means is common practice, no source.
test.each([
  ["PI x10", "", "perfusion-index", 10],
  ["PI*10", "", "perfusion-index", 10],
  ["PI ×100", "", "perfusion-index", 100],
  ["SpO2 /10", "", "spo2", 0.1],
  ["PI x10", "%", "perfusion-index", 1],
  ["PI", "", "perfusion-index", 1],
  ["IR x10", "", "raw-light", 1],
  ["PI max10", "", "perfusion-index", 1],
  ["PI x12", "", "perfusion-index", 1],
] as const)("%s with unit %j, a %s: divided by %d", (name, unit, kind, factor) => {
  expect(labelFactor(name, unit, kind)).toBe(factor);
});

test("a table gives the number that was measured, with a note", async () => {
  const rows = Array.from({ length: 100 }, (_, n) => `${n / 50},${1000 + (n % 40)},23`).join("\n");
  const { channels, values, problems } = await readTable(`time_s,PLETH,PI x10\n${rows}\n`);
  expect(channels[1]?.kind).toBe("perfusion-index");
  expect(new Set(values[1])).toEqual(new Set([2.3]));
  expect(values[0]?.[0]).toBe(1000);
  expect(problems).toMatchObject([{ code: "label-factor", weight: "note" }]);
});
