/** What the height of a limb does to the travel time of the pulse. */
import { exp } from "../numbers/exponential.js";
import { constants as c } from "./constants.js";

/**
 * Delay over that of a level limb, with the hand this column (mmHg) above the heart: the wave runs slower
 * where less pressure stretches the artery, averaged along the limb.
 */
export function heightDelay(column: number): number {
  const x = column * (column > 0 ? c.heightRaised.value : c.heightLowered.value);
  const mean = Math.abs(x) < 1e-6 ? 1 : (exp(x) - 1) / x;
  return c.heightSteady.value + (1 - c.heightSteady.value) * mean;
}
