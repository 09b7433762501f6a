import { describe, expect, test } from "vitest";
import { createReturnChain } from "./return-chain.js";
import type { UsualUpstroke } from "./usual-upstroke.js";

/** Rise 100, interval 60 inner samples. */
const usual = { rise: 100, interval: 60, alike: 0.97 } as UsualUpstroke;

/** Where each upstroke said the return began; -1 = no return yet. */
function takeAll(strokes: readonly (readonly [at: number, rise: number, like: number])[], of = usual) {
  const chain = createReturnChain(of);
  return strokes.map(([at, rise, like]) => chain.take(at, rise, like));
}

describe("a lost pulse is back", () => {
  test("with the second of two very alike at the usual distance", () => {
    expect(
      takeAll([
        [1000, 100, 0.95],
        [1060, 90, 0.95],
      ]),
    ).toEqual([-1, 1000]);
  });

  test("with the second if the two are very alike on average, one a little less", () => {
    expect(
      takeAll([
        [1000, 100, 0.9],
        [1060, 90, 0.96],
      ])[1],
    ).toBe(1000);
    expect(
      takeAll([
        [1000, 100, 0.9],
        [1060, 90, 0.91],
      ])[1],
    ).toBe(-1);
    expect(
      takeAll([
        [1000, 100, 0.85],
        [1060, 90, 1],
      ])[1],
    ).toBe(-1);
  });

  test("with the third of three less alike that keep time", () => {
    expect(
      takeAll([
        [1000, 40, 0.81],
        [1060, 35, 0.85],
        [1118, 50, 0.84],
      ]),
    ).toEqual([-1, -1, 1000]);
  });

  test("not with three small ones that keep no time", () => {
    const small = takeAll([
      [1000, 40, 0.95],
      [1110, 45, 0.95],
      [1140, 40, 0.95],
      [1250, 42, 0.95],
    ]);
    expect(small).toEqual([-1, -1, -1, -1]);
  });

  test("not with three of which one is over three times another; the last link begins a new chain", () => {
    expect(
      takeAll([
        [1000, 130, 0.85],
        [1060, 60, 0.81],
        [1120, 40, 0.82],
        [1180, 50, 0.84],
      ]),
    ).toEqual([-1, -1, -1, 1060]);
  });

  test("a second wave after each pulse neither counts nor breaks the chain", () => {
    expect(
      takeAll([
        [1000, 100, 0.86],
        [1022, 50, 0.95],
        [1060, 100, 0.86],
        [1088, 50, 0.95],
        [1120, 100, 0.86],
      ]),
    ).toEqual([-1, -1, -1, -1, 1000]);
  });

  test("not on the strength of usual upstrokes that were unlike each other", () => {
    const unlike = { ...usual, alike: 0.2 } as UsualUpstroke;
    expect(
      takeAll(
        [
          [1000, 100, 0.82],
          [1060, 100, 0.82],
        ],
        unlike,
      )[1],
    ).toBe(-1);
  });

  test("a new loss begins anew", () => {
    const chain = createReturnChain(usual);
    chain.take(1000, 100, 0.95);
    chain.clear();
    expect(chain.take(1060, 100, 0.95)).toBe(-1);
  });
});
