import fc from "fast-check";
import { expect, test } from "vitest";
import { encodeText } from "./encode-text.js";

// The host's encoder (WHATWG Encoding Standard) is the judge.
test("any text becomes the bytes of UTF-8", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), (text) => {
      expect([...encodeText(text)]).toEqual([...new TextEncoder().encode(text)]);
    }),
  );
  expect([...encodeText("é€𝄞\ud800")]).toEqual([...new TextEncoder().encode("é€𝄞\ud800")]);
});
