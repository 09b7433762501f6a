/** Moments by a device's own clock, as told: it may be wrong, and it may be set back. */
import { type Branded, UnitError } from "../model/index.js";

/** Whole milliseconds since 1970-01-01T00:00Z by the clock of the device that tells it. */
export type WallTime = Branded<"ms since 1970">;

/** The last millisecond an ECMAScript date can hold (ECMA-262, section 21.4.1.1). */
export const latestWallTime = 8.64e15;

/** @throws {UnitError} `out-of-range` unless a whole number from 0 to `latestWallTime` */
export function wallTime(value: number): WallTime {
  if (!Number.isSafeInteger(value) || value < 0 || value > latestWallTime) {
    throw new UnitError("out-of-range", `${value} is no moment in whole milliseconds since 1970`);
  }
  return value as WallTime;
}
