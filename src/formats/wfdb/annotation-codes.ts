/**
 * Codes of the MIT annotation format: mnemonic, and whether it marks a heart beat.
 *
 * @see "WFDB Applications Guide", annot(5) and its table of annotation codes (beat and non-beat annotations)
 */

/** Mnemonic by code; codes without a row are free for users (42 to 49) or not used. */
export const mnemonics: ReadonlyMap<number, string> = new Map([
  [1, "N"],
  [2, "L"],
  [3, "R"],
  [4, "a"],
  [5, "V"],
  [6, "F"],
  [7, "J"],
  [8, "A"],
  [9, "S"],
  [10, "E"],
  [11, "j"],
  [12, "/"],
  [13, "Q"],
  [14, "~"],
  [16, "|"],
  [18, "s"],
  [19, "T"],
  [20, "*"],
  [21, "D"],
  [22, '"'],
  [23, "="],
  [24, "p"],
  [25, "B"],
  [26, "^"],
  [27, "t"],
  [28, "+"],
  [29, "u"],
  [30, "?"],
  [31, "!"],
  [32, "["],
  [33, "]"],
  [34, "e"],
  [35, "n"],
  [36, "@"],
  [37, "x"],
  [38, "f"],
  [39, "("],
  [40, ")"],
  [41, "r"],
]);

/** Not among them: flutter wave, non-conducted P wave, peaks of pressure. */
export const beatCodes: ReadonlySet<number> = new Set([
  1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 25, 30, 34, 35, 38, 41,
]);

export const noteCode = 22;

/** Codes that carry no annotation but say something of the one before, or move the time. */
export const modifiers = { skip: 59, num: 60, sub: 61, chn: 62, aux: 63 } as const;
