/** Counters that run over. Expected numbers are modular arithmetic: what a counter shows is the true count modulo its turn. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createCounterUnwrap } from "./clock-wrap.js";

function unwrap(shown: readonly number[]) {
  const counter = createCounterUnwrap();
  return { values: shown.map((value) => counter.next(value)), wraps: counter.wraps, turn: counter.turn };
}

describe.each([8, 16, 32])("a counter of %d bits", (bits) => {
  const turn = 2 ** bits;
  const step = Math.max(1, Math.floor(turn / 200));

  test("is counted on over every turn", () => {
    const counts = Array.from({ length: 1000 }, (_, n) => step * n);
    const { values, wraps, turn: found } = unwrap(counts.map((count) => count % turn));
    expect(values).toEqual(counts);
    expect([wraps, found]).toEqual([Math.floor(counts.at(-1)! / turn), turn]);
  });

  test("falling back from its middle is a restart and stays as written", () => {
    const half = Array.from({ length: 100 }, (_, n) => step * n);
    const shown = [...half, ...half];
    expect(unwrap(shown)).toEqual({ values: shown, wraps: 0, turn: null });
  });
});

test("packets lost at the top do not stop it, where a turn is long", () => {
  const counts = [65_500, 65_508, 65_516, 65_536 + 60];
  expect(unwrap(counts.map((count) => count % 65_536)).values).toEqual(counts);
});

test("a number that comes late, after the counter ran over, does not make it run over again", () => {
  const shown = [65_520, 65_530, 4, 65_534, 14, 24];
  const { values, wraps } = unwrap(shown);
  expect(values).toEqual([65_520, 65_530, 65_540, 65_534, 65_550, 65_560]);
  expect(wraps).toBe(1);
});

test("any steps that are steady to a factor of three come through any turn", () => {
  fc.assert(
    fc.property(
      fc.constantFrom(2 ** 16, 2 ** 32),
      fc.array(fc.integer({ min: 5, max: 15 }), { minLength: 5, maxLength: 400 }),
      fc.integer({ min: 0, max: 2000 }),
      (turn, steps, before) => {
        let count = turn - 20 - before;
        const counts = [count, ...steps.map((one) => (count += one))];
        expect(unwrap(counts.map((one) => one % turn)).values).toEqual(counts);
      },
    ),
    { seed: 2026 },
  );
});

test.each([
  ["seconds with decimals", [254.5, 255, 255.5, 0, 0.5]],
  ["numbers below 0", [250, 255, -3, 2]],
  ["a stamp a little behind", [100, 108, 104, 112, 120]],
  ["missing ones", [10, Number.NaN, 30, Number.NaN, 20]],
])("%s are left as they are", (_, shown) => {
  expect(unwrap(shown)).toEqual({ values: shown, wraps: 0, turn: null });
});
