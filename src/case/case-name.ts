/** Names for cases that name no one: easy to say over a radio, telling nothing of the patient (S10). */

/** Birds, trees and stones; no two begin with the same three letters. */
export const nameWords = [
  "LARK",
  "HERON",
  "FINCH",
  "PLOVER",
  "CURLEW",
  "OSPREY",
  "TEAL",
  "SNIPE",
  "GANNET",
  "PUFFIN",
  "STORK",
  "DUNLIN",
  "BITTERN",
  "GODWIT",
  "WIGEON",
  "MALLARD",
  "ALDER",
  "BIRCH",
  "CEDAR",
  "CYPRESS",
  "POPLAR",
  "SPRUCE",
  "WALNUT",
  "MAPLE",
  "BASALT",
  "FLINT",
  "GNEISS",
  "MARL",
  "QUARTZ",
  "SLATE",
  "TUFF",
  "PUMICE",
] as const;

/**
 * An invented name such as LARK-27: 32 words and 90 numbers, so 2880 names. Names may repeat; ids may not.
 *
 * @param random  draws from 0 (included) to 1 (excluded); called twice
 */
export function caseName(random: () => number): string {
  const word = nameWords[Math.floor(random() * nameWords.length)] ?? nameWords[0];
  return `${word}-${10 + Math.floor(random() * 90)}`;
}
