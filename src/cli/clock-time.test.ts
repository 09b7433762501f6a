import { describe, expect, test } from "vitest";
import { parseSpan, parseTime } from "./clock-time.js";

describe("a time as typed", () => {
  test.each([
    ["0", 0],
    ["90", 90],
    ["90.25", 90.25],
    ["1:30", 90],
    ["0:01:30", 90],
    ["25:00:00", 90_000],
    ["1:30.5", 90.5],
    ["120:00", 7200],
  ])("%s is %d s", (text, seconds) => {
    expect(parseTime(text)).toBe(seconds);
  });

  test.each([
    "",
    "-1",
    "1:60",
    "1:2:60",
    "1:60:00",
    "1.5:00",
    "abc",
    "1e3",
    "1:2:3:4",
    " 5",
    "0x10",
    "Infinity",
  ])("%j is none", (text) => {
    expect(parseTime(text)).toBeNull();
  });
});

describe("a span as typed", () => {
  test.each([
    ["0-60", 0, 60],
    ["1:30-2:00", 90, 120],
    ["90-", 90, null],
    ["-90", null, 90],
    ["0.5-0.75", 0.5, 0.75],
  ])("%s", (text, from, to) => {
    expect(parseSpan(text)).toEqual({ from, to });
  });

  test.each(["", "-", "60", "60-60", "60-30", "-0", "1-2-3", "a-b", "1–2"])("%j is none", (text) => {
    expect(parseSpan(text)).toBeNull();
  });
});
