import { describe, expect, test } from "vitest";
import { hertz } from "../model/units.js";
import type { RawFault, RawFaultKind } from "./raw-fault.js";
import { createRawFaults } from "./raw-faults.js";

/** A steady 75/min trace of 12 bit codes about 2000, 800 codes high, with a little seeded noise. */
function pleth(seconds: number, rate: number): Float64Array {
  let state = 1;
  const noise = () => {
    state = (Math.imul(state, 1103515245) + 12345) >>> 0;
    return state / 2 ** 32 - 0.5;
  };
  return Float64Array.from({ length: Math.round(seconds * rate) }, (_, i) => {
    const phase = (i / rate / 0.8) % 1;
    const wave = phase < 0.2 ? Math.sin((Math.PI / 2) * (phase / 0.2)) : Math.exp(-(phase - 0.2) / 0.3);
    return Math.round(1600 + 800 * wave + 40 * Math.sin(i / rate) + 6 * noise());
  });
}

function faults(
  values: Float64Array,
  rate: number,
  block = values.length,
  rails?: { low: number; high: number },
) {
  const found: RawFault[] = [];
  const watch = createRawFaults({ rate: hertz(rate), rails }, (fault) => found.push(fault));
  for (let i = 0; i < values.length; i += block) watch.push(values.slice(i, i + block));
  watch.end();
  return found;
}

const kinds = (found: readonly RawFault[]) => new Set<RawFaultKind>(found.map((fault) => fault.kind));
const rates = [25, 100, 125, 250, 1000];

describe.each(rates)("at %d samples/s", (rate) => {
  test("a clean trace has no fault", () => {
    expect(faults(pleth(60, rate), rate)).toEqual([]);
  });

  test("stillness is marked from its first to its last equal sample", () => {
    const values = pleth(20, rate);
    values.fill(1700, 8 * rate, 9.5 * rate);
    const [flat, ...others] = faults(values, rate).filter((fault) => fault.kind === "flat");
    expect(others).toEqual([]);
    expect(flat!.from).toBeCloseTo(8, 1);
    expect(flat!.to).toBeCloseTo(9.5, 1);
  });

  test("stillness shorter than 0.3 s is not marked", () => {
    const values = pleth(20, rate);
    values.fill(1700, 8 * rate, 8.2 * rate);
    expect(kinds(faults(values, rate))).not.toContain("flat");
  });

  test("missing samples are marked to the sample", () => {
    const values = pleth(20, rate);
    values.fill(Number.NaN, 5 * rate, 6 * rate);
    values[12 * rate] = Number.NaN;
    expect(faults(values, rate)).toEqual([
      { kind: "missing", from: 5, to: 6 },
      { kind: "missing", from: 12, to: 12 + 1 / rate },
    ]);
  });

  test("tops cut at one level are a rail, from the second one on", () => {
    const values = pleth(20, rate).map((value) => Math.min(value, 2150));
    const rails = faults(values, rate).filter((fault) => fault.kind === "rail");
    // 25 tops; at 25 samples/s each has three to five samples, too few to see how steeply some are entered.
    expect(rails.length).toBeGreaterThanOrEqual(rate < 50 ? 15 : 20);
    expect(rails.length).toBeLessThanOrEqual(25);
    for (const { from, to } of rails) expect(to - from).toBeLessThan(0.4);
  });

  test("an overflowing converter is told from the jump and what follows it", () => {
    // 11 bit codes: what passes 2048 starts again at 0.
    const values = pleth(20, rate).map((value) => value % 2048);
    const wraps = faults(values, rate).filter((fault) => fault.kind === "wrap-around");
    // The rise passes the end of the range once per pulse, the fall once more.
    expect(wraps.length).toBeGreaterThan(20);
  });

  test("a step of level is marked once, where it happened", () => {
    const values = pleth(30, rate).map((value, i) => (i < 17 * rate ? value : value + 3000));
    const steps = faults(values, rate).filter((fault) => fault.kind === "level-step");
    expect(steps).toHaveLength(1);
    expect(Math.abs(steps[0]!.from - 17)).toBeLessThan(0.5);
  });
});

test("known rails need no learning", () => {
  const values = pleth(3, 100).map((value) => Math.min(value, 2250));
  const known = faults(values, 100, values.length, { low: 0, high: 2250 });
  const learned = faults(values, 100);
  expect(known.filter((fault) => fault.kind === "rail").length).toBeGreaterThan(
    learned.filter((fault) => fault.kind === "rail").length,
  );
});

test("a step too small to leave the range is left to the shape of the pulses", () => {
  const values = pleth(30, 100).map((value, i) => (i < 1700 ? value : value + 300));
  expect(faults(values, 100)).toEqual([]);
});

test.each([1, 7, 250])("cut into blocks of %d, the faults are the same", (block) => {
  const values = pleth(30, 125).map((value, i) => Math.min(2200, i > 2000 && i < 2200 ? 1500 : value));
  values.fill(Number.NaN, 300, 420);
  expect(faults(values, 125, block)).toEqual(faults(values, 125));
});

test("what is still running can be asked for", () => {
  const watch = createRawFaults({ rate: hertz(100) }, () => {});
  watch.push(pleth(2, 100));
  expect(watch.running("flat")).toBe(0);
  watch.push(new Float64Array(150).fill(3));
  expect(watch.running("flat")).toBeCloseTo(1.5, 9);
  watch.push(new Float64Array(50).fill(Number.NaN));
  expect(watch.running("flat")).toBe(0);
  expect(watch.running("missing")).toBeCloseTo(0.5, 9);
  expect(watch.quantum()).toBe(1);
});
