import { describe, expect, test } from "vitest";
import { Glide } from "./glide.js";
import { heightDelay } from "./height.js";
import { Lookup } from "./lookup.js";
import { Narrowing } from "./narrowing.js";
import { Travel } from "./travel.js";
import { slack, squeeze } from "./tube-law.js";

describe("narrowing", () => {
  // Young and Tsai 1973 worked by hand for 90 % of the area, D 0.4 cm, length 2 cm, 0.035 P, 1.06 g/cm3:
  // Kv = 32 (1.66 + 1.64 × 0.12649)/0.4 × 100 = 14940; viscous 14940 × 0.035/(0.125664 × 0.4)/1333.22 = 7.803, less
  // 0.0967 for the open artery; turbulent 1.52 × 1.06 × 81/(2 × 0.015791)/1333.22 = 3.0995.
  test("loses what the published law says", () => {
    const narrowing = new Narrowing(0.4);
    narrowing.set(0.9);
    expect(narrowing.linear).toBeCloseTo(7.803 - 0.0967, 2);
    expect(narrowing.quadratic).toBeCloseTo(3.0995, 2);
    narrowing.set(0);
    expect(narrowing.linear).toBe(0);
    expect(narrowing.quadratic).toBe(0);
  });
  test("shut, it resists with at least 1e7", () => {
    const narrowing = new Narrowing(0.4);
    narrowing.set(1);
    expect(narrowing.linear).toBeGreaterThan(1e7);
  });
});

describe("the artery's wall", () => {
  // Zheng and Murray 2011: distensibility rises 2.27 times when transmural pressure falls 40 mmHg.
  test("is 2.27 times softer 40 mmHg lower", () => {
    expect(slack.at(60) / slack.at(100)).toBeCloseTo(2.27, 1);
  });
  test("resists as when open at 100 mmHg, and ever more the further it is squeezed", () => {
    expect(squeeze.at(100)).toBeCloseTo(1, 12);
    for (let p = -90; p < 300; p += 5) expect(squeeze.at(p - 5)).toBeGreaterThanOrEqual(squeeze.at(p));
    expect(squeeze.at(-300)).toBeCloseTo(1e6, 0);
  });
});

// Zheng and Murray 2009: arm time 57 ms level, 72 at 45° up, 88 at 90° up, 54 at 45° down; an arm of 75 cm, from memory.
test.each([
  { degrees: "45° up", column: 0.776 * 53, ms: 72 },
  { degrees: "90° up", column: 0.776 * 75, ms: 88 },
  { degrees: "45° down", column: -0.776 * 53, ms: 54 },
])("height, fitted: arm time $degrees is $ms ± 7 ms", ({ column, ms }) => {
  expect(Math.abs(57 * heightDelay(column) - ms)).toBeLessThan(7);
});

describe("travel", () => {
  test("gives back what went in, the delay later, between steps along a straight line", () => {
    const travel = new Travel(1, 0.002, 90);
    travel.delay = 0.0503;
    for (let n = 1; n <= 2000; n++) {
      travel.input = 90 + n;
      travel.step();
    }
    expect(travel.output).toBeCloseTo(90 + 2000 - 25.15, 9);
  });
  test("starts as if the first pressure had always been there", () => {
    const travel = new Travel(1, 0.002, 90);
    travel.delay = 0.3;
    travel.input = 10;
    travel.step();
    expect(travel.output).toBe(90);
  });
});

test("a table reads straight lines exactly and holds its ends", () => {
  const table = new Lookup(-10, 10, 0.5, (x) => 3 * x + 1);
  expect(table.at(1.3)).toBeCloseTo(4.9, 12);
  expect(table.at(-50)).toBe(-29);
  expect(table.at(50)).toBe(31);
});

test("a glide arrives in even steps", () => {
  const glide = new Glide([1, 5]);
  glide.aim(0, 2, 4);
  const seen = [1, 2, 3, 4].map(() => {
    glide.next();
    return glide.values[0];
  });
  expect(seen).toEqual([1.25, 1.5, 1.75, 2]);
  expect(glide.values[1]).toBe(5);
});
