/**
 * Least squares of an offset, a slope and one sine, for many sines and one shape: what is left tells a pulse from
 * a hum or a breath. The normal equations are written out, term by term, because every window asks five times.
 */

/** A term that adds less than this nothing new, as when the stretch is a small part of the sine's period. */
const tiny = 1e-9;

export interface SineFit {
  /** Takes the first `count` of these values as the shape to be explained. */
  about(values: Float64Array): void;
  /**
   * @param angle radians per point
   * @returns the share of the energy about the mean that the best fitting offset, slope and sine of this
   *   angle leave over, 0 to 1; NaN for a constant
   */
  leftOver(angle: number): number;
}

/** @param count points of a shape, at least 2 */
export function createSineFit(count: number): SineFit {
  const slope = Float64Array.from({ length: count }, (_, i) => (2 * i) / (count - 1) - 1);
  const shape = new Float64Array(count);
  // Sums of products: 1 the slope, y the shape; those of the offset with itself are `count`.
  let s1 = 0;
  let s11 = 0;
  for (const x of slope) {
    s1 += x;
    s11 += x * x;
  }
  // What the slope has of its own once the offset is taken off it.
  const slopeShare = s1 / count;
  const own11 = s11 - slopeShare * s1;
  // An object, not single variables: its numbers are changed in place and nothing is allocated.
  const s = { y: 0.5, y1: 0.5, energy: 0.5 };

  return {
    about(values) {
      let mean = 0;
      for (let i = 0; i < count; i++) mean += values[i]!;
      mean /= count;
      let sy = 0;
      let s1y = 0;
      let energy = 0;
      for (let i = 0; i < count; i++) {
        const y = values[i]! - mean;
        shape[i] = y;
        sy += y;
        s1y += slope[i]! * y;
        energy += y * y;
      }
      s.y = sy;
      s.y1 = s1y;
      s.energy = energy;
    },
    leftOver(angle) {
      const turnCos = Math.cos(angle);
      const turnSin = Math.sin(angle);
      let cos = 1;
      let sin = 0;
      let s2 = 0;
      let s3 = 0;
      let s12 = 0;
      let s13 = 0;
      let s22 = 0;
      let s23 = 0;
      let s33 = 0;
      let s2y = 0;
      let s3y = 0;
      for (let i = 0; i < count; i++) {
        const x = slope[i]!;
        const y = shape[i]!;
        s2 += cos;
        s3 += sin;
        s12 += x * cos;
        s13 += x * sin;
        s22 += cos * cos;
        s23 += cos * sin;
        s33 += sin * sin;
        s2y += cos * y;
        s3y += sin * y;
        const next = cos * turnCos - sin * turnSin;
        sin = sin * turnCos + cos * turnSin;
        cos = next;
      }
      // Elimination: each term is freed of what the terms before it explain.
      let explained = (s.y * s.y) / count;
      const s1y = s.y1 - slopeShare * s.y;
      s12 -= slopeShare * s2;
      s13 -= slopeShare * s3;
      let factor = s2 / count;
      s22 -= factor * s2;
      s23 -= factor * s3;
      s2y -= factor * s.y;
      factor = s3 / count;
      s33 -= factor * s3;
      s3y -= factor * s.y;
      if (own11 > tiny) {
        explained += (s1y * s1y) / own11;
        factor = s12 / own11;
        s22 -= factor * s12;
        s23 -= factor * s13;
        s2y -= factor * s1y;
        factor = s13 / own11;
        s33 -= factor * s13;
        s3y -= factor * s1y;
      }
      if (s22 > tiny) {
        explained += (s2y * s2y) / s22;
        factor = s23 / s22;
        s33 -= factor * s23;
        s3y -= factor * s2y;
      }
      if (s33 > tiny) explained += (s3y * s3y) / s33;
      return s.energy > 0 ? Math.max(0, s.energy - explained) / s.energy : Number.NaN;
    },
  };
}
