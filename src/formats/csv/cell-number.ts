/**
 * One cell of a table as a number, straight from its bytes. Correctly rounded: up to 15 digits and
 * exponents within ±22 by one exact division (W. D. Clinger, "How to read floating point numbers
 * accurately", PLDI 1990, section 3), everything else by the language's own conversion.
 */
import { textOf } from "../file-text.js";

/** `value`: see `value`. `missing`: empty, or a word for missing. `bad`: text. `overflow`: beyond the range of numbers. */
export type CellKind = "value" | "missing" | "bad" | "overflow";

export interface CellParser {
  /** Of the last cell; NaN unless it was a `value`. */
  readonly value: number;
  /** Unit of the last printed digit of the last cell, e.g. 0.01 for `480.01`: how finely it was rounded. */
  readonly printed: number;
  parse(bytes: Uint8Array, from: number, to: number): CellKind;
}

/** Words that stand for a missing value, lower case. */
const missingWords: ReadonlySet<string> = new Set([
  "",
  "-",
  "--",
  "---",
  ".",
  "?",
  "na",
  "n/a",
  "#n/a",
  "#na",
  "nan",
  "-nan",
  "null",
  "none",
  "nil",
  "missing",
  "invalid",
]);

const powers = Array.from({ length: 23 }, (_, n) => Number(`1e${n}`));

export function createCellParser(decimal: "." | ","): CellParser {
  const point = decimal.charCodeAt(0);
  const cell = {
    value: Number.NaN,
    printed: 1,
    parse(bytes: Uint8Array, from: number, to: number): CellKind {
      cell.value = Number.NaN;
      let p = from;
      let end = to;
      while (p < end && (bytes[p] === 32 || bytes[p] === 9)) p++;
      while (end > p && (bytes[end - 1] === 32 || bytes[end - 1] === 9)) end--;
      if (p === end) return "missing";
      const start = p;
      const sign = bytes[p]!;
      if (sign === 45 || sign === 43) p++;
      let whole = 0;
      let digits = 0;
      let significant = 0;
      let decimals = 0;
      let seenPoint = false;
      for (; p < end; p++) {
        const digit = bytes[p]! - 48;
        if (digit >= 0 && digit <= 9) {
          whole = whole * 10 + digit;
          digits++;
          if (whole > 0) significant++;
          if (seenPoint) decimals++;
        } else if (bytes[p] === point && !seenPoint) seenPoint = true;
        else break;
      }
      if (digits === 0) return word(bytes, start, end);
      let exponent = 0;
      if (p < end && (bytes[p] === 101 || bytes[p] === 69)) {
        p++;
        const negative = bytes[p] === 45;
        if (negative || bytes[p] === 43) p++;
        const first = p;
        for (; p < end && bytes[p]! >= 48 && bytes[p]! <= 57; p++)
          exponent = Math.min(99999, exponent * 10 + bytes[p]! - 48);
        if (p === first) return word(bytes, start, end);
        if (negative) exponent = -exponent;
      }
      if (p !== end) return word(bytes, start, end);
      const scale = exponent - decimals;
      cell.printed =
        scale === 0
          ? 1
          : scale < 0 && scale >= -22
            ? 1 / powers[-scale]!
            : 10 ** Math.max(-300, Math.min(300, scale));
      let value = whole;
      if (significant <= 15 && scale >= -22 && scale <= 22) {
        value = scale < 0 ? whole / powers[-scale]! : whole * powers[scale]!;
        if (sign === 45) value = -value;
      } else value = Number(textOf(bytes, start, end).replace(",", "."));
      if (!Number.isFinite(value)) return "overflow";
      cell.value = value;
      return "value";
    },
  };
  return cell;
}

function word(bytes: Uint8Array, from: number, to: number): CellKind {
  if (to - from > 16) return "bad";
  const text = textOf(bytes, from, to).trim().toLowerCase();
  if (missingWords.has(text)) return "missing";
  return /^[+-]?inf(inity)?$/.test(text) ? "overflow" : "bad";
}
