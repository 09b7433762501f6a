/** How two sites relate, since only like places can be compared in size and timing (S4). */
import type { Digit, Site } from "../model/index.js";
import type { SideContext } from "./declared.js";
import type { Reading } from "./reading.js";

/**
 * - `same-digit`: the same digit of the other side, named or stated
 * - `other-digit`: another digit of the same kind
 * - `other-place`: finger against toe, or stated not to be the same digit
 * - `own-first`: one digit at two times, because there is no sound side: its first reading is the reference
 * - `same-site`: one digit at one time, which is no comparison
 * - `unknown`: not stated
 */
export type PlaceRelation =
  | "same-digit"
  | "other-digit"
  | "other-place"
  | "own-first"
  | "same-site"
  | "unknown";

export type Extremity = "hand" | "foot";

export function extremityOf(digit: Digit): Extremity {
  return digit.endsWith("toe") ? "foot" : "hand";
}

export function relatePlaces(one: Reading, other: Reading, context: SideContext): PlaceRelation {
  const sound = one.site;
  const suspect = other.site;
  if (sound === null || suspect === null) {
    if (context.sameDigit === null) return "unknown";
    return context.sameDigit ? "same-digit" : "other-place";
  }
  if (sound.digit === suspect.digit) {
    if (sound.side !== suspect.side) return "same-digit";
    return context.oneClock && one.from < other.to && other.from < one.to ? "same-site" : "own-first";
  }
  return extremityOf(sound.digit) === extremityOf(suspect.digit) ? "other-digit" : "other-place";
}

/** The extremity both sites lie on; `null` if unknown or not the same. */
export function commonExtremity(sound: Site | null, suspect: Site | null): Extremity | null {
  const known = [sound, suspect].flatMap((site) => (site === null ? [] : [extremityOf(site.digit)]));
  return known.length > 0 && known.every((one) => one === known[0]) ? known[0]! : null;
}

/** Whether both sites are at one height: the given heights decide, else what was stated; `null` if unknown. */
export function sameHeight(sound: Reading, suspect: Reading, context: SideContext): boolean | null {
  const one = sound.declared.height;
  const other = suspect.declared.height;
  // Both above or both below says nothing of by how much.
  if (one !== null && other !== null)
    return one !== other ? false : one === "at heart" ? true : context.sameHeight;
  return context.sameHeight;
}
