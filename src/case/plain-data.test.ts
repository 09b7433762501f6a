import fc from "fast-check";
import { expect, test } from "vitest";
import { hertz } from "../model/index.js";
import { canonicalText, notPlain } from "./plain-data.js";
import { thinTrace } from "./thin-trace.js";

// The sample of RFC 8785, section 3.2.3, from memory: keys in order of their UTF-16 units.
test("keys stand in the order the standard's sample shows", () => {
  const sample = {
    "\u20ac": "Euro Sign",
    "\r": "Carriage Return",
    "\ufb33": "Hebrew Letter Dalet With Dagesh",
    "1": "One",
    "\ud83d\ude00": "Emoji: Grinning Face",
    "\u0080": "Control",
    "\u00f6": "Latin Small Letter O With Diaeresis",
  };
  expect(canonicalText(sample)).toBe(
    '{"\\r":"Carriage Return","1":"One","\u0080":"Control","ö":"Latin Small Letter O With Diaeresis",' +
      '"€":"Euro Sign","😀":"Emoji: Grinning Face","\ufb33":"Hebrew Letter Dalet With Dagesh"}',
  );
});

test("equal data has one spelling, and it reads back as the same data", () => {
  fc.assert(
    fc.property(fc.jsonValue({ maxDepth: 4 }), (value) => {
      const turned = JSON.parse(JSON.stringify(value, (_, inner) => turn(inner)));
      expect(canonicalText(turned)).toBe(canonicalText(value));
      expect(canonicalText(JSON.parse(canonicalText(value)))).toBe(canonicalText(value));
      expect(notPlain(value)).toBeNull();
    }),
  );
});

/** The same object with its keys the other way round. */
function turn(value: unknown): unknown {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).reverse());
}

test("a trace is thinned to means on a scale, and a run with a missing sample is missing", () => {
  const samples = [0, 2, 4, 6, Number.NaN, 8, 10, 12];
  expect(thinTrace(samples, hertz(100), 4)).toEqual({
    step: 0.02,
    low: 1,
    high: 11,
    points: [0, 400, null, 1000],
  });
  expect(thinTrace([Number.NaN], hertz(100))).toBeNull();
  expect(thinTrace([], hertz(100))).toBeNull();
  expect(thinTrace([7, 7], hertz(100))).toMatchObject({ low: 7, high: 7, points: [0, 0] });
});
