import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  canSwell,
  evaluate,
  holds,
  logRatioScatter,
  type Measured,
  mechanisms,
  type Rule,
  ruleOf,
  rules,
} from "./index.js";
import { forbiddenIn } from "./testing/forbidden-words.js";

const met = (measured: Measured) =>
  evaluate(rules, measured)
    .filter((finding) => finding.met)
    .map((finding) => finding.rule.id);

describe("S9: every row", () => {
  test.each(rules.map((rule) => [rule.id, rule] as const))("%s is complete", (id, rule: Rule) => {
    expect(id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*\.[a-z0-9]+(-[a-z0-9]+)*$/);
    expect(Number.isFinite(rule.value)).toBe(true);
    expect(rule.unit).not.toBe("");
    expect(rule.text.length).toBeGreaterThan(15);
    expect(rule.source.length).toBeGreaterThan(10);
    expect(Number.isNaN(Date.parse(rule.date))).toBe(false);
  });

  test("has an id of its own", () => {
    expect(new Set(rules.map((rule) => rule.id)).size).toBe(rules.length);
  });

  test("keeps one unit per measure, so a value can be held against all rows of its measure", () => {
    for (const rule of rules) {
      expect(rules.filter((other) => other.measure === rule.measure && other.unit !== rule.unit)).toEqual([]);
    }
  });

  test("says ours, memory or unchecked where it is a working default; a published one never says ours", () => {
    for (const rule of rules) {
      const said = `${rule.source} ${rule.note ?? ""}`;
      if (rule.support === "working default") expect(said, rule.id).toMatch(/\bours\b|from memory/i);
      if (rule.support === "published") expect(rule.source, rule.id).not.toMatch(/\bours\b/);
      if (rule.support === "common practice") expect(rule.source, rule.id).toContain("no source");
    }
  });

  test("S1: uses none of the forbidden words", () => {
    for (const rule of rules)
      expect(forbiddenIn(`${rule.text} ${rule.note ?? ""} ${rule.source}`), rule.id).toEqual([]);
    for (const way of mechanisms) expect(forbiddenIn(`${way.text} ${way.source}`)).toEqual([]);
  });
});

describe("worked values", () => {
  // Lima, Beelen, Bakker 2002: cut-off 1.4; strictly below is the project's choice.
  test.each([
    [1.4, false],
    [1.39, true],
  ])("PI %d %% is flagged: %s", (pi, flagged) => {
    expect(holds(ruleOf("pi.low"), pi)).toBe(flagged);
  });

  // PI = 100 × AC / DC, by definition; 14 of 1000 sits on the cut-off.
  test("AC 14 on DC 1000 is a PI of 1.4 % and is not flagged", () => {
    expect(holds(ruleOf("pi.low"), (100 * 14) / 1000)).toBe(false);
  });

  // Al-metwalli: fall > 65.7 %.
  test.each([
    [3.0, 1.0, true],
    [3.0, 1.1, false],
  ])("PI %d falling to %d on radial compression is flagged: %s", (before, after, flagged) => {
    expect(holds(ruleOf("pi-fall.radial"), (100 * (before - after)) / before)).toBe(flagged);
  });

  // Preprint on ankle-brachial index and PPG: < 0.417.
  test.each([
    [0.41, true],
    [0.42, false],
    [0.417, false],
  ])("toe over finger %d is flagged: %s", (ratio, flagged) => {
    expect(holds(ruleOf("pi-ratio.toe-finger"), ratio)).toBe(flagged);
  });

  // doi 10.3233/ch-238120: difference > 80.49 %.
  test("a replanted digit at 0.195 of its control is flagged, at 0.196 not", () => {
    expect(holds(ruleOf("pi-ratio.replanted"), 100 * (1 - 0.195))).toBe(true);
    expect(holds(ruleOf("pi-ratio.replanted"), 100 * (1 - 0.196))).toBe(false);
  });

  // Erts et al. 2005: healthy ≤ 14 ms, grey 23 ± 9 ms, certain > 32 ms.
  test.each([
    [14, []],
    [23, ["delay.leg-grey"]],
    [32, ["delay.leg-grey"]],
    [33, ["delay.leg-grey", "delay.leg-certain"]],
  ])("toe delay %d ms passes the leg limits %j", (delay, ids) => {
    expect(met({ "delay, toes": delay }).filter((id) => id.startsWith("delay.leg"))).toEqual(ids);
  });

  // Jago & Murray 1988: > 20 ms fingers, > 30 ms toes.
  test.each([
    ["delay, fingers", 19, []],
    ["delay, fingers", 20, []],
    ["delay, fingers", 21, ["delay.finger"]],
    ["delay, toes", 29, ["delay.leg-grey"]],
    ["delay, toes", 31, ["delay.toe-detectable", "delay.leg-grey"]],
  ] as const)("%s %d ms passes %j", (measure, delay, ids) => {
    expect(met({ [measure]: delay })).toEqual(ids);
  });

  // Physiol Meas 2019, PMID 31479424: 270 ms.
  test("a great toe rising in 270 ms is not flagged, in 271 ms it is", () => {
    expect(met({ "rise time, great toe": 270 })).toEqual([]);
    expect(met({ "rise time, great toe": 271 })).toEqual(["rise-time.great-toe"]);
  });

  // Rajkumar et al.: deficit > 10.
  test("heart rate 96 with pulse 82 is a deficit, 92 with 82 is not", () => {
    expect(met({ "pulse deficit": 96 - 82 })).toEqual(["rate.deficit"]);
    expect(met({ "pulse deficit": 92 - 82 })).toEqual([]);
  });

  // Orphanidou et al. 2015: intervals 0.8, 0.8, 1.76 s fail, since the ratio must stay below 2.2.
  test("intervals 0.8, 0.8, 1.76 s are too uneven, 0.8 and 1.75 s are not", () => {
    expect(met({ "longest over shortest interval": 1.76 / 0.8 })).toContain(
      "capture.interval-ratio-published",
    );
    expect(met({ "longest over shortest interval": 1.75 / 0.8 })).not.toContain(
      "capture.interval-ratio-published",
    );
  });

  // Orphanidou et al. 2015: 40 to 180 /min, no gap over 3 s, template correlation ≥ 0.86 (0.86 from memory).
  test.each([
    [{ "pulse rate": 39 }, ["capture.rate-low"]],
    [{ "pulse rate": 40 }, []],
    [{ "pulse rate": 180 }, []],
    [{ "pulse rate": 181 }, ["capture.rate-high"]],
    [{ "longest gap between beats": 3.1 }, ["capture.gap"]],
    [{ "longest gap between beats": 3 }, []],
  ] as const)("%j passes %j", (measured, ids) => {
    expect(met(measured)).toEqual(ids);
  });

  test("a mean template correlation of 0.86 passes the published rule, 0.85 fails it", () => {
    expect(holds(ruleOf("capture.template-published"), 0.86)).toBe(false);
    expect(holds(ruleOf("capture.template-published"), 0.85)).toBe(true);
  });

  // Kwasnicki et al. 2022: "< 96 %". Parameswaran et al. 2005: needs more than 2 %.
  test("SpO2 95 % is flagged on an injured limb, 96 % not; a difference needs more than 2 %", () => {
    expect(met({ "SpO2, injured limb": 95 })).toEqual(["spo2.injured-limb"]);
    expect(met({ "SpO2, injured limb": 96 })).toEqual([]);
    expect(met({ "SpO2, sound minus suspect": 97 - 95 })).toEqual([]);
    expect(met({ "SpO2, sound minus suspect": 97 - 94 })).toEqual(["spo2.side"]);
  });
});

describe("the side limit on PI", () => {
  // Swain et al., Cureus 2022: ICC 0.474. Lima et al. 2002: mean 2.2, SD 2.0 (from memory).
  test("follows from the published agreement of fingers and stays on the strict side", () => {
    const spread = Math.sqrt(Math.log(1 + (2.0 / 2.2) ** 2));
    const twoFingers = spread * Math.sqrt(2 * (1 - 0.474));
    expect(logRatioScatter).toBeCloseTo(twoFingers, 2);
    expect(ruleOf("pi-ratio.weaker").value).toBeLessThanOrEqual(Math.exp(-1.96 * twoFingers));
    expect(ruleOf("pi-ratio.unlike-low").value).toBeGreaterThanOrEqual(Math.exp(-twoFingers));
  });

  test("is as strict above as below", () => {
    expect(ruleOf("pi-ratio.stronger").value * ruleOf("pi-ratio.weaker").value).toBeCloseTo(1, 12);
    expect(ruleOf("pi-ratio.unlike-high").value * ruleOf("pi-ratio.unlike-low").value).toBeCloseTo(1, 12);
  });

  test("is where absence and weakness meet", () => {
    expect(ruleOf("absent.hidden-share").value).toBe(ruleOf("pi-ratio.weaker").value);
  });
});

describe("the evaluator", () => {
  const row = (comparator: Rule["comparator"]): Rule => ({ ...ruleOf("pi.low"), comparator, value: 0.9 });

  // Lynch & Johansen 1991 flag an index < 0.90, the ankle-brachial guideline ≤ 0.90: 108 over 120 tells them apart.
  test.each([
    ["<", 107, true],
    ["<", 108, false],
    ["<=", 108, true],
    [">=", 108, true],
    [">", 108, false],
    [">", 109, true],
  ] as const)("holds '%s 0.90' against %d / 120 as %s", (comparator, systolic, expected) => {
    expect(holds(row(comparator), systolic / 120)).toBe(expected);
  });

  test("says nothing about what was not measured", () => {
    expect(evaluate(rules, {})).toEqual([]);
    expect(evaluate(ruleOf("pi.low"), { "perfusion index": null, "delay, toes": 50 })).toEqual([]);
  });

  test("hands back the row and the value it was held against", () => {
    const rule = ruleOf("pi.low");
    expect(evaluate(rule, { "perfusion index": 0.5 })).toEqual([{ rule, measured: 0.5, met: true }]);
  });

  test("refuses NaN, which every comparison would silently fail", () => {
    expect(() => evaluate(rules, { "perfusion index": Number.NaN })).toThrow(/^not-a-number/);
  });

  test("strict and loose comparators differ at the threshold only", () => {
    fc.assert(
      fc.property(fc.double({ min: -10, max: 10, noNaN: true }), (x) => {
        const at = Number(x.toPrecision(12)) === 0.9;
        expect(holds(row("<="), x)).toBe(holds(row("<"), x) || at);
        expect(holds(row(">="), x)).toBe(!holds(row("<"), x));
        expect(holds(row("<="), x)).toBe(!holds(row(">"), x));
      }),
    );
  });
});

describe("S11: swelling", () => {
  test.each(["fracture", "crush", "burn", "bite", "reperfusion"] as const)("%s can swell the limb", (way) => {
    expect(canSwell(way)).toBe(true);
  });

  test("an unknown mechanism counts as one that can", () => {
    expect(canSwell(null)).toBe(true);
  });

  test("only practice on a volunteer counts as one that cannot", () => {
    expect(mechanisms.filter((way) => !canSwell(way.id)).map((way) => way.id)).toEqual(["practice"]);
  });
});
