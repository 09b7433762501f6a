/**
 * Exponential, logarithm and power made of + − × ÷ only. Engines differ in the last bit of `Math.exp`
 * and `Math.log`, and a seed must give the same limb in every engine.
 */

const ln2High = 0.6931471803691238; // ln 2 cut after 32 bits, so that k × it is exact for |k| < 2^20
const ln2Low = 1.9082149292705877e-10;
const log2OfE = Math.LOG2E;

const smallestNormal = 2.2250738585072014e-308;
const lowestPower = -1074;
const powersOfTwo = makePowersOfTwo();

/** 2^k for k from −1074 to 1023, by doubling and halving: exact. */
function makePowersOfTwo(): Float64Array {
  const powers = new Float64Array(1023 - lowestPower + 1);
  let up = 1;
  for (let k = 0; k <= 1023; k++, up *= 2) powers[k - lowestPower] = up;
  let down = 1;
  for (let k = 0; k >= lowestPower; k--, down /= 2) powers[k - lowestPower] = down;
  return powers;
}

/** 1/n! for n from 13 down to 0; the next term is below 2^−55 on the reduced range. */
const inverseFactorials = makeInverseFactorials(13);

function makeInverseFactorials(highest: number): Float64Array {
  const out = new Float64Array(highest + 1);
  let factorial = 1;
  for (let n = 0; n <= highest; n++) {
    if (n > 0) factorial *= n;
    out[highest - n] = 1 / factorial;
  }
  return out;
}

/** e^x, within 2 units in the last place for |x| ≤ 700; 0 below −745, Infinity above 709.7. */
export function exp(x: number): number {
  if (!(x > -745.2)) return Number.isNaN(x) ? x : 0;
  if (x > 709.78) return Number.POSITIVE_INFINITY;
  const k = Math.floor(x * log2OfE + 0.5);
  const r = x - k * ln2High - k * ln2Low;
  let sum = 0;
  for (let n = 0; n < inverseFactorials.length; n++) sum = sum * r + (inverseFactorials[n] as number);
  // In two steps, since 2^k alone may leave the range although the product does not.
  const half = k >> 1;
  return sum * (powersOfTwo[half - lowestPower] as number) * (powersOfTwo[k - half - lowestPower] as number);
}

/** Natural logarithm, within 2 units in the last place; −Infinity at 0, NaN below. */
export function log(x: number): number {
  if (!(x >= 0)) return Number.NaN;
  if (x === 0) return Number.NEGATIVE_INFINITY;
  if (x === Number.POSITIVE_INFINITY) return x;
  let k = 0;
  let m = x;
  if (m < smallestNormal) {
    m *= 18014398509481984;
    k = -54;
  }
  for (let step = 512; step > 0; step >>= 1) {
    const power = powersOfTwo[step - lowestPower] as number;
    if (m >= power) {
      m /= power;
      k += step;
    } else if (m * power < 2) {
      m *= power;
      k -= step;
    }
  }
  if (m > Math.SQRT2) {
    m /= 2;
    k += 1;
  }
  // ln m = 2 atanh(s); |s| ≤ 0.172, so 12 terms reach 2^−60.
  const s = (m - 1) / (m + 1);
  const ss = s * s;
  let series = 0;
  for (let n = 25; n >= 3; n -= 2) series = (series + 1 / n) * ss;
  return k * ln2High + (2 * s + (2 * s * series + k * ln2Low));
}

/** base^exponent for base ≥ 0; relative error below 1e-13 for results between 1e-6 and 1e6. */
export function power(base: number, exponent: number): number {
  return base === 0 ? (exponent === 0 ? 1 : 0) : exp(exponent * log(base));
}
