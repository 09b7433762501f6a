import { describe, expect, test } from "vitest";
import { checkControl, heartRows, siteRows } from "../controls/index.js";
import { scenarioNamed, scenarios } from "./catalogue.js";
import { playScenario } from "./play.js";
import { jobs } from "./scenario.js";

describe("the catalogue", () => {
  test("holds at least sixteen scenarios, each with a name of its own", () => {
    expect(scenarios.length).toBeGreaterThanOrEqual(16);
    expect(new Set(scenarios.map(({ name }) => name)).size).toBe(scenarios.length);
    for (const { name } of scenarios) expect(name).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });

  test("covers all eight jobs", () => {
    expect([...new Set(scenarios.flatMap((scenario) => scenario.jobs))].sort()).toEqual([...jobs].sort());
  });

  test("a name it does not have is answered with those it has", () => {
    expect(() => scenarioNamed("broken-heart")).toThrow(/^unknown-scenario: .*quiet-pair/);
  });
});

describe.each(scenarios.map((scenario) => [scenario.name, scenario] as const))("%s", (_, scenario) => {
  test("teaches in one line, in words that reassure nobody (S1)", () => {
    expect(scenario.teaches).not.toMatch(/\n/);
    expect(scenario.teaches.length).toBeLessThan(200);
    const said = [
      scenario.teaches,
      ...scenario.cautions,
      ...scenario.rows.map((row) => ("note" in row ? row.note : "")),
    ];
    expect(said.join(" ")).not.toMatch(/\b(normal|safe|cleared|ruled out|perfused|no injury|healthy)\b/i);
  });

  test("rows stand in time order, within its length, and name controls within their range", () => {
    let last = 0;
    for (const row of scenario.rows) {
      expect(row.at).toBeGreaterThanOrEqual(last);
      expect(row.at + ("over" in row ? (row.over ?? 0) : 0)).toBeLessThanOrEqual(scenario.seconds);
      last = row.at;
      if ("note" in row) expect(row.note).not.toBe("");
      else expect(() => checkControl("site" in row ? siteRows : heartRows, row.turn, row.to)).not.toThrow();
    }
  });

  test("cuffs, bands, pressed arteries and raised limbs come with cautions (S12)", () => {
    const copied = scenario.rows.some(
      (row) => "site" in row && ["cuff", "band", "radialPress", "ulnarPress", "height"].includes(row.turn),
    );
    // The wrap of a splint that the story is about is not a demonstration on a volunteer.
    if (copied && scenario.name !== "tight-splint") expect(scenario.cautions).not.toEqual([]);
    else expect(scenario.teaches).not.toMatch(/\bcuff\b/i);
  });

  test("plays its first seconds and its last row without a missing value", () => {
    const body = playScenario(scenario, { seed: 11, rate: 50 });
    for (let s = 0; s < Math.min(200, scenario.seconds); s++) {
      for (const { infrared, red, truth } of body.advance(50).sites) {
        for (const column of [infrared, red, ...Object.values(truth)])
          expect(column.every(Number.isFinite)).toBe(true);
      }
    }
  });
});
