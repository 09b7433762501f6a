import fc from "fast-check";
import { expect, test } from "vitest";
import { lightLeft } from "./light-left.js";

test("e^−x to 1e-12 of the engine's own, 0 to 20", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 20, noNaN: true }), (x) => {
      expect(Math.abs(lightLeft(x) / Math.exp(-x) - 1)).toBeLessThan(1e-12);
    }),
    { numRuns: 2000 },
  );
});
