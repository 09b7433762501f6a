/** Perfusion index: the pulsatile share of the light. */
import type { Percent } from "../model/units.js";

/**
 * 100 × AC/DC.
 *
 * @param amplitude peak above foot, 0 or more, in the unit of `level`
 * @param level     mean light level, from a source whose zero is no light (S3)
 * @returns `null` where the level is not above 0, and where the pulse is as large as the level: light cannot fall
 *   below none, so such a trace lost its level on the way (a high-pass filter, an offset) and is no raw light
 */
export function perfusionIndex(amplitude: number, level: number): Percent | null {
  return level > 0 && amplitude < level ? ((100 * (amplitude / level)) as Percent) : null;
}
