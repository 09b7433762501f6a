/** Sine and cosine made of + − × ÷ only: the same bits in every engine. */

const halfPiHigh = 1.5707963267341256; // π/2 cut after 33 bits, so that n × it is exact for n < 2^20
const halfPiLow = 6.077100506506192e-11;
const twoOverPi = 0.6366197723675814;

/** Largest argument: beyond it the reduction loses digits. */
export const largestAngle = 1e6;

/** Taylor series on |r| ≤ π/4; the first term left out is below 2^−56. */
function sineNearZero(r: number): number {
  const rr = r * r;
  let sum = 0;
  for (let n = 17; n >= 3; n -= 2) sum = -(rr / (n * (n - 1))) * (1 + sum);
  return r + r * sum;
}

function cosineNearZero(r: number): number {
  const rr = r * r;
  let sum = 0;
  for (let n = 18; n >= 2; n -= 2) sum = -(rr / (n * (n - 1))) * (1 + sum);
  return 1 + sum;
}

/**
 * Sine of an angle in radians, absolute error below 3e-16 up to `largestAngle`.
 * @throws {RangeError} beyond it, or on NaN
 */
export function sin(angle: number): number {
  return quadrant(angle, 0);
}

/** Cosine, as `sin`. */
export function cos(angle: number): number {
  return quadrant(angle, 1);
}

function quadrant(angle: number, ahead: 0 | 1): number {
  if (!(angle <= largestAngle && angle >= -largestAngle))
    throw new RangeError(`angle ${angle} is beyond ±${largestAngle}`);
  const n = Math.floor(angle * twoOverPi + 0.5);
  const r = angle - n * halfPiHigh - n * halfPiLow;
  switch ((n + ahead) & 3) {
    case 0:
      return sineNearZero(r);
    case 1:
      return cosineNearZero(r);
    case 2:
      return -sineNearZero(r);
    default:
      return -cosineNearZero(r);
  }
}
