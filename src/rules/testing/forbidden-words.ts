/** Words no sentence, table or file of the tool may hold (safety rules S1 and S5). */
export const forbiddenWords: readonly RegExp[] = [
  /\b(ab)?normal(ly|ity)?\b/i,
  /\b(un)?safe(ly|ty)?\b/i,
  /\bcleared?\b/i,
  /\brul(ed?|ing) out\b/i,
  /\bno injur(y|ies)\b/i,
  /\bperfused\b/i,
  /\boccluded?\b/i,
  /\bgreen\b/i,
  /\b(all|looks?|is) (good|fine|well|ok)\b/i,
  /\bhealthy (limb|leg|arm|flow)\b/i,
  /\breassur(e|ed|es|ing|ance)\b/i,
];

/** The forbidden words found in `text`; empty when it may be shown. */
export function forbiddenIn(text: string): string[] {
  return forbiddenWords.flatMap((word) => word.exec(text)?.[0] ?? []);
}
