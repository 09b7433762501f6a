/** Least squares of an offset, a slope and one sine: what is left tells a pulse from a hum or a breath. */

const terms = 4;

/**
 * @returns a function giving the share of the energy about the mean that the best fitting
 *   offset, slope and sine of `angle` radians per point leave over, 0 to 1; NaN for a constant
 */
export function createSineFit(): (values: Float64Array, count: number, angle: number) => number {
  const wide = terms + 1;
  const normal = new Float64Array(terms * wide);
  const row = new Float64Array(wide);

  return (values, count, angle) => {
    normal.fill(0);
    let mean = 0;
    for (let i = 0; i < count; i++) mean += values[i]!;
    mean /= count;
    const turnCos = Math.cos(angle);
    const turnSin = Math.sin(angle);
    let cos = 1;
    let sin = 0;
    let energy = 0;
    row[0] = 1;
    for (let i = 0; i < count; i++) {
      const y = values[i]! - mean;
      energy += y * y;
      row[1] = (2 * i) / (count - 1) - 1;
      row[2] = cos;
      row[3] = sin;
      row[4] = y;
      for (let a = 0; a < terms; a++) {
        const factor = row[a]!;
        for (let b = a; b <= terms; b++) normal[a * wide + b]! += factor * row[b]!;
      }
      const next = cos * turnCos - sin * turnSin;
      sin = sin * turnCos + cos * turnSin;
      cos = next;
    }
    return energy > 0 ? Math.max(0, energy - explained()) / energy : Number.NaN;
  };

  /** Solves the symmetric system by elimination and sums what each term explains. */
  function explained(): number {
    let sum = 0;
    for (let a = 0; a < terms; a++) {
      const pivot = normal[a * wide + a]!;
      // A term that adds nothing new, as when the stretch is a small part of the sine's period.
      if (!(pivot > 1e-9)) continue;
      sum += (normal[a * wide + terms]! * normal[a * wide + terms]!) / pivot;
      for (let b = a + 1; b < terms; b++) {
        const factor = normal[a * wide + b]! / pivot;
        for (let c = b; c <= terms; c++) normal[b * wide + c]! -= factor * normal[a * wide + c]!;
      }
    }
    return sum;
  }
}

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
