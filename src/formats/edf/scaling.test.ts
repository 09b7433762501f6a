import { expect, test } from "vitest";
import { decodeSamples, unscaled } from "./scaling.js";

// Two's complement, low byte first: exact by definition.
test.each([
  { width: 2, bytes: [0x00, 0x80, 0xff, 0x7f, 0xff, 0xff, 0x01, 0x00], values: [-32768, 32767, -1, 1] },
  {
    width: 3,
    bytes: [0x00, 0x00, 0x80, 0xff, 0xff, 0x7f, 0xff, 0xff, 0xff, 0x00, 0x00, 0x01],
    values: [-8388608, 8388607, -1, 65536],
  },
] as const)("numbers of $width bytes", ({ width, bytes, values }) => {
  const out = new Float64Array(4);
  expect(decodeSamples(Uint8Array.from(bytes), width, unscaled, out, 0)).toBe(0);
  expect([...out]).toEqual(values);
});

test("values on either side of the digital range are counted, the limits are inside", () => {
  const bytes = new Uint8Array(Int16Array.of(-11, -10, 0, 20, 21, 22).buffer);
  const range = { ...unscaled, lowest: -10, highest: 20 };
  expect(decodeSamples(bytes, 2, range, new Float64Array(6), 0)).toBe(3);
});
