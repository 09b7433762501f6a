/** The angle at which values move: tells how fast a wave swings, whatever its shape. */

/**
 * Angle per point at which a sine would move as much from point to point as these values do:
 * the square root of the ratio of their differences' energy to their own. Exact for whole cycles of a sine.
 */
export function movingAngle(values: Float64Array, count: number): number {
  let mean = 0;
  for (let i = 0; i < count; i++) mean += values[i]!;
  mean /= count;
  let energy = 0;
  let moves = 0;
  for (let i = 0; i < count; i++) {
    energy += (values[i]! - mean) ** 2;
    if (i > 0) moves += (values[i]! - values[i - 1]!) ** 2;
  }
  const ratio = moves / energy / 4;
  return ratio < 1 ? 2 * Math.asin(Math.sqrt(ratio)) : Math.PI;
}
