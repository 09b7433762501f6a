/**
 * Numbers that know their unit. A branded number can be used as a number but not
 * handed over where another unit is asked for. Missing values are `null`, never 0.
 */
declare const unit: unique symbol;

/** A number carrying the name of its unit in its type only; costs nothing at run time. */
export type Branded<Unit extends string> = number & { readonly [unit]: Unit };

/** Time from the first sample of the record, or a duration, in seconds. */
export type Seconds = Branded<"s">;
/** A duration in milliseconds. */
export type Millis = Branded<"ms">;
/** Samples or cycles per second. */
export type Hertz = Branded<"Hz">;
/** Beats per minute (UCUM `/min`). */
export type PerMinute = Branded<"/min">;
/** Parts of a hundred; a perfusion index of 1.4 % is `percent(1.4)`. */
export type Percent = Branded<"%">;
/** A share between 0 and 1. */
export type Fraction = Branded<"1">;
/** Pressure in millimetres of mercury (UCUM `mm[Hg]`). */
export type MillimetresOfMercury = Branded<"mm[Hg]">;
/** Count of samples from the start of a channel, from 0. */
export type SampleIndex = Branded<"sample">;

/** A value that is not a number of the unit asked for: the caller's mistake. */
export class UnitError extends Error {
  override readonly name = "UnitError";
  constructor(
    readonly code: "not-finite" | "out-of-range",
    detail: string,
  ) {
    super(`${code}: ${detail}`);
  }
}

function finite<Unit extends string>(value: number, what: string): Branded<Unit> {
  if (!Number.isFinite(value)) throw new UnitError("not-finite", `${what} ${value}`);
  return value as Branded<Unit>;
}

/** @throws {UnitError} `not-finite` */
export const seconds = (value: number): Seconds => finite(value, "seconds");
/** @throws {UnitError} `not-finite` */
export const millis = (value: number): Millis => finite(value, "milliseconds");
/** @throws {UnitError} `not-finite` */
export const perMinute = (value: number): PerMinute => finite(value, "per minute");
/** @throws {UnitError} `not-finite` */
export const percent = (value: number): Percent => finite(value, "percent");
/** @throws {UnitError} `not-finite` */
export const millimetresOfMercury = (value: number): MillimetresOfMercury => finite(value, "mmHg");

/** @throws {UnitError} `not-finite`, `out-of-range` unless above 0 */
export function hertz(value: number): Hertz {
  if (finite(value, "hertz") <= 0) throw new UnitError("out-of-range", `${value} Hz is not above 0`);
  return value as Hertz;
}

/** @throws {UnitError} `not-finite`, `out-of-range` outside 0 to 1 */
export function fraction(value: number): Fraction {
  finite(value, "fraction");
  if (value < 0 || value > 1) throw new UnitError("out-of-range", `fraction ${value} is outside 0 to 1`);
  return value as Fraction;
}

/** @throws {UnitError} `out-of-range` unless a whole number from 0 */
export function sampleIndex(value: number): SampleIndex {
  if (!Number.isSafeInteger(value) || value < 0) {
    throw new UnitError("out-of-range", `sample index ${value} is not a whole number from 0`);
  }
  return value as SampleIndex;
}
