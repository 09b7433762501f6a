/** Where on the patient: the side travels with every value (S4). */
import { type Digit, digits, type Side } from "../model/index.js";
import { list, nullable, type Of, oneOf, record, ruled } from "./shape.js";
import { type LimbPart, limbs, roles } from "./vocabulary.js";

const sides = ["left", "right"] as const satisfies readonly Side[];

export const side = oneOf(sides);
export const site = record({ side, digit: oneOf(digits) });

export const limb = record({ side, limb: oneOf(limbs) });
export type Limb = Of<typeof limb>;

/** Fingers are of the arm, toes of the leg. */
export function limbOfDigit(digit: Digit): LimbPart {
  return digits.indexOf(digit) < 5 ? "arm" : "leg";
}

/** A limb, and the digit where it matters. */
export const place = ruled(
  record({ side, limb: oneOf(limbs), digit: nullable(oneOf(digits)) }),
  "a digit of that limb",
  (value) => value.digit === null || limbOfDigit(value.digit) === value.limb,
);
export type Place = Of<typeof place>;

const chosenSite = record({ role: oneOf(roles), side, digit: oneOf(digits) });
export type ChosenSite = Of<typeof chosenSite>;

const once = (sites: readonly ChosenSite[], role: ChosenSite["role"]) =>
  sites.filter((one) => one.role === role).length <= 1;

/** One to eight sites, each once; one sound and one suspect side at most. */
export const chosenSites = ruled(
  list(chosenSite, 1, 8),
  "each site once, one sound and one suspect at most",
  (sites) =>
    new Set(sites.map((one) => `${one.side} ${one.digit}`)).size === sites.length &&
    once(sites, "sound") &&
    once(sites, "suspect"),
);
