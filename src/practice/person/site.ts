/** Where the practice probe can sit: every digit, and the ear lobe as the usual place out of harm's way. */
import { digits, parseSite, type Side, type Site, siteName } from "../../model/index.js";
import { PracticeError } from "../errors.js";
import type { Place } from "../vessels/index.js";

export type PracticeSite = Site | { readonly side: Side; readonly digit: "ear" };

export function placeOf(site: PracticeSite): Place {
  if (site.digit === "ear" || site.digit === "thumb") return site.digit;
  return site.digit.endsWith("toe") ? "toe" : "finger";
}

export function practiceSiteName(site: PracticeSite): string {
  return site.digit === "ear" ? `${site.side} ear` : siteName(site);
}

/** @throws {PracticeError} `unknown-site` */
export function parsePracticeSite(text: string): PracticeSite {
  const ear = /^(left|right) ear$/i.exec(text.trim());
  if (ear !== null) return { side: ear[1]?.toLowerCase() as Side, digit: "ear" };
  const site = parseSite(text);
  if (site === null) {
    throw new PracticeError(
      "unknown-site",
      `"${text}" is not left or right with one of ${digits.join(", ")}, ear`,
    );
  }
  return site;
}
