/** How a soft artery answers the pressure across its wall. */
import { exp, log } from "../numbers/exponential.js";
import { constants as c } from "./constants.js";
import { Lookup } from "./lookup.js";

/** Lumen is never less than this share of that at 100 mmHg, so that resistance stays a number. */
const leastArea = 1e-3;

/**
 * Cross-section at transmural pressure `p` (mmHg), cm2; 0 where the law has none.
 * @see G. M. Drzewiecki et al., Ann Biomed Eng 1994 (form; constants from memory)
 */
export function area(p: number): number {
  const inside = c.tubeA.value * p + c.tubeB.value;
  if (inside <= 1) return 0;
  return (c.tubeD.value * log(inside)) / (1 + exp(-c.tubeC.value * p));
}

/** (area at 100 mmHg / area)2: resistance over that of the open artery, by the transmural pressure. */
export const squeeze = new Lookup(-100, 400, 0.5, (p) => {
  const share = Math.max(area(p) / area(100), leastArea);
  return 1 / (share * share);
});

/**
 * Compliance over that at 85 mmHg: 2.27 times per 40 mmHg less.
 * @see D. Zheng and A. Murray, Physiol Meas 2011;32:499
 */
export const slack = new Lookup(-100, 400, 0.5, (p) =>
  Math.min(Math.max(exp((85 - p) / c.slackScale.value), c.slackLeast.value), c.slackMost.value),
);
