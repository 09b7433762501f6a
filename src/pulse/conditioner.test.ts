import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { hertz } from "../model/units.js";
import { createConditioner } from "./conditioner.js";
import { collectInner } from "./testing/collect-inner.js";

interface Case {
  readonly rate: number;
  readonly innerRate: number;
  readonly values: readonly number[];
  readonly expected: readonly number[];
}

const golden: readonly Case[] = JSON.parse(
  readFileSync(new URL("./golden/conditioner/cases.json", import.meta.url), "utf8"),
);

/** A pulse-like wave of two harmonics around 1000. */
const wave = (t: number) =>
  1000 + Math.sin(2 * Math.PI * 1.3 * t) + 0.4 * Math.sin(2 * Math.PI * 2.6 * t + 1);

const rates = [25, 31.3, 47, 93, 100, 125, 250, 258.83, 500, 1000];

describe("inner stream", () => {
  test.each(golden)("equals SciPy's filter and decimation at $rate samples/s", (c) => {
    const inner = collectInner(Float64Array.from(c.values), c.rate);
    expect(inner.rate).toBeCloseTo(c.innerRate, 9);
    expect(inner.values).toHaveLength(c.expected.length);
    for (let k = 0; k < inner.values.length; k++) expect(inner.values[k]).toBeCloseTo(c.expected[k]!, 9);
  });

  test.each(rates)("keeps time and size of a slow wave at %d samples/s", (rate) => {
    const raw = Float64Array.from({ length: Math.round(10 * rate) }, (_, i) => wave(i / rate));
    const inner = collectInner(raw, rate);
    expect(inner.rate).toBeGreaterThan(46);
    expect(inner.rate).toBeLessThan(94);
    for (let k = 0; k < inner.values.length; k++) {
      const t = k / inner.rate;
      if (t < 0.2 || t > 9.7) continue;
      // 1.5 % covers the ripple of the pass band (SciPy's freqz: within 0.1 dB up to 4 Hz).
      expect(Math.abs(inner.values[k]! - wave(t))).toBeLessThan(0.02);
    }
  });

  test.each(rates)("holds a constant to the last bit of its size at %d samples/s", (rate) => {
    const inner = collectInner(new Float64Array(Math.round(3 * rate)).fill(4096), rate);
    for (const value of inner.values) expect(value).toBeCloseTo(4096, 9);
    for (const level of inner.levels) expect(level).toBeCloseTo(4096, 9);
  });

  test("turns systole-down traces over and leaves their level alone", () => {
    const raw = Float64Array.from({ length: 1000 }, (_, i) => wave(i / 125));
    const up = collectInner(raw, 125);
    const down = collectInner(raw, 125, "systole-down");
    expect([...down.values]).toEqual([...up.values].map((value) => -value));
    expect(down.levels).toEqual(up.levels);
    expect(down.levels.at(-1)).toBeCloseTo(1000, 0);
  });

  test("is the same without its level, which then is missing throughout", () => {
    const raw = Float64Array.from({ length: 1000 }, (_, i) => wave(i / 125));
    raw.fill(Number.NaN, 400, 450);
    const bare = collectInner(raw, 125, "systole-up", raw.length, false);
    expect(bare.values).toEqual(collectInner(raw, 125).values);
    expect([...bare.levels].every(Number.isNaN)).toBe(true);
  });
});

describe("missing samples", () => {
  const missingAt = (rate: number, holes: readonly (readonly [number, number])[]) => {
    const raw = Float64Array.from({ length: Math.round(12 * rate) }, (_, i) => wave(i / rate));
    for (const [from, count] of holes) raw.fill(Number.NaN, from, from + count);
    return collectInner(raw, rate);
  };

  test.each(rates)("one missing sample shows, and nothing is bridged, at %d samples/s", (rate) => {
    const hole = Math.round(5 * rate);
    const { values, rate: innerRate } = missingAt(rate, [[hole, 1]]);
    const missing = [...values.keys()].filter((k) => Number.isNaN(values[k]!));
    expect(missing.length).toBeGreaterThan(0);
    expect(missing.length).toBeLessThanOrEqual(3);
    for (const k of missing)
      expect(Math.abs(k / innerRate - hole / rate)).toBeLessThanOrEqual(1 / innerRate + 1e-9);
  });

  test("both sides of a gap are filtered by themselves", () => {
    const raw = new Float64Array(2000).fill(10);
    raw.fill(5000, 1050);
    raw.fill(Number.NaN, 1000, 1050);
    const { values, levels } = collectInner(raw, 125);
    expect(levels.at(-1)).toBeCloseTo(5000, 6);
    for (const value of values) {
      if (!Number.isNaN(value))
        expect(Math.min(Math.abs(value - 10), Math.abs(value - 5000))).toBeLessThan(1e-6);
    }
  });

  test("a run too short to filter is missing", () => {
    const raw = new Float64Array(1000).fill(Number.NaN);
    raw.fill(7, 500, 510);
    const { values } = collectInner(raw, 125);
    expect(values).toHaveLength(500);
    expect(values.every((value) => Number.isNaN(value))).toBe(true);
  });
});

describe("any input", () => {
  const sample = fc.oneof(
    { weight: 20, arbitrary: fc.double({ min: -1e6, max: 1e6, noNaN: true }) },
    { weight: 1, arbitrary: fc.constant(Number.NaN) },
    { weight: 1, arbitrary: fc.double() },
  );

  test("gives the same inner stream however it is cut, one inner sample for each due", () => {
    fc.assert(
      fc.property(
        fc.array(sample, { maxLength: 600 }),
        fc.constantFrom(25, 47, 125, 258.83, 1000),
        fc.constantFrom(1, 7, 250),
        (samples, rate, cut) => {
          const raw = Float64Array.from(samples);
          const whole = collectInner(raw, rate);
          const pieces = collectInner(raw, rate, "systole-up", cut);
          expect(pieces).toEqual(whole);
          const due = raw.length === 0 ? 0 : Math.floor(((raw.length - 1) / rate) * whole.rate + 1e-6) + 1;
          expect(whole.values).toHaveLength(due);
          for (const value of whole.values) expect(Math.abs(value)).not.toBe(Number.POSITIVE_INFINITY);
        },
      ),
    );
  });

  test.each([0, 19.9, 5001, Number.NaN])("a rate of %d samples/s is refused", (rate) => {
    const sink = { take: () => {}, end: () => {} };
    expect(() =>
      createConditioner({ rate: rate as ReturnType<typeof hertz>, polarity: "systole-up" }, sink),
    ).toThrow(/^argument-out-of-range/);
  });
});

test.each(rates)("at %d samples/s the inner stream is behind the raw one by the delay it tells", (rate) => {
  let taken = 0;
  let made = 0;
  const conditioner = createConditioner(
    { rate: rate as ReturnType<typeof hertz>, polarity: "systole-up" },
    {
      take({ first, count }) {
        made += count;
        // The first ones wait for the start of the run to be mirrored.
        if (first / conditioner.innerRate < 1) return;
        const behind = (taken - 1) / rate - (first + count - 1) / conditioner.innerRate;
        expect(behind).toBeGreaterThan(conditioner.delay - 1e-9);
        expect(behind).toBeLessThan(conditioner.delay + 1 / rate);
      },
      end() {},
    },
  );
  for (; taken < 3 * rate; ) {
    taken++;
    conditioner.push(Float64Array.of(wave(taken / rate)));
  }
  expect(made).toBeGreaterThan(2 * conditioner.innerRate);
  // Half the kernel, 0.1 s, to the nearest sample.
  expect(Math.abs(conditioner.delay - 0.1)).toBeLessThanOrEqual(1 / rate);
});
