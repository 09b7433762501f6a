import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { nthSmallest } from "./nth-smallest.js";
import { sortFirst } from "./sort-first.js";

const lists = fc.array(fc.oneof(fc.integer({ min: 0, max: 5 }), fc.double({ noNaN: true })), {
  minLength: 1,
});

// Both are held against the sorting of the language itself.
describe("order of a list", () => {
  test("the nth smallest is the nth of the sorted list", () => {
    fc.assert(
      fc.property(lists, fc.nat(), (values, number) => {
        const place = number % values.length;
        const sorted = Float64Array.from(values).sort();
        // −0 and 0 are one value here.
        expect(nthSmallest(Float64Array.from(values), values.length, place) || 0).toBe(sorted[place]! || 0);
      }),
    );
  });

  test("only the first values are sorted, the rest stays", () => {
    fc.assert(
      fc.property(lists, fc.nat(), (values, number) => {
        const count = number % (values.length + 1);
        const list = Float64Array.from(values);
        const expected = [...list.slice(0, count).sort(), ...list.slice(count)];
        sortFirst(list, count);
        expect([...list].map((x) => x || 0)).toEqual(expected.map((x) => x || 0));
      }),
    );
  });
});
