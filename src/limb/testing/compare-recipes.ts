/** Two invented sides that differ only in what a test says, and what nobody needs to say again. */
import { compareSides } from "../compare.js";
import type { Comparison } from "../comparison.js";
import type { SideContext } from "../declared.js";
import { left, makeReading, type Recipe, right, undisturbed } from "./make-reading.js";

/** Everything asked: one recording, equal heights, like probes, sound side unhurt, a broken bone. */
export const asked: SideContext = {
  oneClock: true,
  mechanism: "fracture",
  sameDigit: null,
  sameHeight: true,
  sameProbe: true,
  soundHurt: false,
};

export const soundRecipe: Partial<Recipe> = { site: right, declared: undisturbed, seed: 11 };
export const suspectRecipe: Partial<Recipe> = { site: left, declared: undisturbed, seed: 12 };

export function compare(
  suspect: Partial<Recipe> = {},
  sound: Partial<Recipe> = {},
  context: Partial<SideContext> = {},
): Comparison {
  return compareSides(
    makeReading({ ...soundRecipe, ...sound }),
    makeReading({ ...suspectRecipe, ...suspect }),
    { ...asked, ...context },
  );
}

export const silent: Partial<Recipe> = { grades: ["none", "none", "none"], beats: false };
export const firstCode = (comparison: Comparison) => comparison.reasons[0]?.code;
export const toes: [Partial<Recipe>, Partial<Recipe>] = [
  { site: { side: "left", digit: "great toe" } },
  { site: { side: "right", digit: "great toe" } },
];
