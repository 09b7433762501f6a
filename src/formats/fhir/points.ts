/**
 * The `data` string of a SampledData: decimals and the marks E, U, L between blanks.
 * It is walked in place, never split into a list.
 *
 * @see FHIR R4, section 2.24.0.13 "SampledData", and its data type `SampledDataDataType`
 */

/** What a look through all points found. */
export interface PointCount {
  readonly points: number;
  /** `E`: error, no value could be had. */
  readonly errors: number;
  /** `U`: above the upper limit. */
  readonly above: number;
  /** `L`: below the lower limit. */
  readonly below: number;
  /** Neither a number nor a mark. */
  readonly bad: number;
  /** Place of the first bad one, from 0; -1 when there is none. */
  readonly firstBad: number;
}

export interface PointCursor {
  /** Next point as a number; NaN for a mark or anything else. Call it only `points` times. */
  next(): number;
  /** Passes over points without a value being asked for. */
  pass(count: number): void;
}

export function countPoints(data: string): PointCount {
  const count = { points: 0, errors: 0, above: 0, below: 0, bad: 0, firstBad: -1 };
  let at = 0;
  for (;;) {
    while (at < data.length && isBlank(data.charCodeAt(at))) at += 1;
    if (at >= data.length) return count;
    const start = at;
    while (at < data.length && !isBlank(data.charCodeAt(at))) at += 1;
    if (Number.isNaN(numberIn(data, start, at))) {
      const mark = at - start === 1 ? data.charAt(start) : "";
      if (mark === "E") count.errors += 1;
      else if (mark === "U") count.above += 1;
      else if (mark === "L") count.below += 1;
      else {
        if (count.bad === 0) count.firstBad = count.points;
        count.bad += 1;
      }
    }
    count.points += 1;
  }
}

export function createPointCursor(data: string): PointCursor {
  let at = 0;
  const start = () => {
    while (at < data.length && isBlank(data.charCodeAt(at))) at += 1;
    const from = at;
    while (at < data.length && !isBlank(data.charCodeAt(at))) at += 1;
    return from;
  };
  return {
    next() {
      const from = start();
      return numberIn(data, from, at);
    },
    pass(count) {
      for (let n = 0; n < count; n++) start();
    },
  };
}

function isBlank(code: number): boolean {
  return code === 32 || (code >= 9 && code <= 13);
}

/** Powers of ten that doubles hold exactly: a mantissa below 2^53 over one of them is rounded once, as `Number` does. */
const powers = Array.from({ length: 16 }, (_, n) => 10 ** n);

/** The decimal in a stretch of text; NaN when it is none. Plain decimals of up to 15 digits are read without a copy. */
function numberIn(text: string, from: number, to: number): number {
  const sign = text.charCodeAt(from);
  const negative = sign === 45;
  let mantissa = 0;
  let digits = 0;
  let decimals = -1;
  for (let n = negative || sign === 43 ? from + 1 : from; n < to; n++) {
    const code = text.charCodeAt(n);
    if (code >= 48 && code <= 57) {
      mantissa = mantissa * 10 + (code - 48);
      digits += 1;
      if (decimals >= 0) decimals += 1;
    } else if (code === 46 && decimals < 0) {
      decimals = 0;
    } else {
      return uncommon(text.slice(from, to));
    }
  }
  if (digits === 0) return Number.NaN;
  if (digits > 15) return uncommon(text.slice(from, to));
  const value = decimals > 0 ? mantissa / (powers[decimals] as number) : mantissa;
  return negative ? -value : value;
}

function uncommon(text: string): number {
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text)) return Number.NaN;
  const value = Number(text);
  return Number.isFinite(value) ? value : Number.NaN;
}
