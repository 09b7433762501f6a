import { describe, expect, test } from "vitest";
import { readTals } from "./tal.js";

const bytes = (text: string) => new TextEncoder().encode(text);

// EDF+ specification, section 2.2.2: onset [0x15 duration] 0x14 text 0x14 ... 0x14 0x00.
describe("annotation lists", () => {
  test("the examples of the specification", () => {
    const { onset, tals } = readTals(
      bytes("+0\x14\x14\0+180\x14Lights off\x14Close door\x14\0+1800.2\x1525.5\x14Apnea\x14\0\0\0"),
    );
    expect(onset).toBe(0);
    expect(tals).toEqual([
      { onset: 180, duration: null, texts: ["Lights off", "Close door"] },
      { onset: 1800.2, duration: 25.5, texts: ["Apnea"] },
    ]);
  });

  test("only a list at the very start keeps the record's time", () => {
    expect(readTals(bytes("\0+5\x14note\x14\0")).onset).toBeNull();
    expect(readTals(bytes("*5\x14\x14\0+7\x14note\x14\0"))).toMatchObject({
      onset: null,
      damaged: "*5\x14\x14",
    });
  });

  test.each([
    "5\x14\x14",
    "+5\x15x\x14a\x14",
    "+5\x15-1\x14a\x14",
    "+1e9\x14\x14",
    "+5",
    "+5\x14a",
    "+99999999999\x14\x14",
    "\x14\x14",
  ])("%j is damage, not a time", (text) => {
    expect(readTals(bytes(`${text}\0`))).toMatchObject({ onset: null, tals: [], damaged: text });
  });
});
