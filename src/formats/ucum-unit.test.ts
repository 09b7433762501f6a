import { expect, test } from "vitest";
import { ucumUnit } from "./ucum-unit.js";

// UCUM: micro is `u`, millimetre of mercury `mm[Hg]`, per minute `/min`, degree Celsius `Cel`.
test.each([
  ["\u00b5V", "uV"],
  ["\u03bcV", "uV"],
  ["uV", "uV"],
  ["UV", "UV"],
  ["mV", "mV"],
  ["MV", "MV"],
  [" mmHg ", "mm[Hg]"],
  ["BPM", "/min"],
  ["degC", "Cel"],
  ["mNU", "mNU"],
  ["", ""],
])("%j is %j", (written, unit) => {
  expect(ucumUnit(written)).toBe(unit);
});
