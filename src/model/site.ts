/** Where a probe sits. Side is never inferred and never swapped (S4). */
export type Side = "left" | "right";

export const digits = [
  "thumb",
  "index finger",
  "middle finger",
  "ring finger",
  "little finger",
  "great toe",
  "second toe",
  "third toe",
  "fourth toe",
  "little toe",
] as const;
export type Digit = (typeof digits)[number];

export interface Site {
  readonly side: Side;
  readonly digit: Digit;
}

/** "left middle finger": the words used on every screen and in every file. */
export function siteName(site: Site): string {
  return `${site.side} ${site.digit}`;
}

/** Reads the form `siteName` writes; `null` when the text names no site in full. */
export function parseSite(text: string): Site | null {
  const words = text
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, " ");
  const match = /^(left|right) (.+)$/.exec(words);
  const digit = digits.find((name) => name === match?.[2]);
  if (match === null || digit === undefined) return null;
  return { side: match[1] as Side, digit };
}
