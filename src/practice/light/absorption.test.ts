import { describe, expect, test } from "vitest";
import { absorption } from "./absorption.js";
import { lightConstants as c } from "./constants.js";

/** mol/L of haemoglobin in blood. */
const concentration = c.haemoglobin.value / c.haemoglobinMass.value;

describe("absorption of blood", () => {
  // Molar extinction in L/(mol cm): Gratzer and Kollias, compiled by Prahl.
  test.each([
    ["infrared", 1, 1214],
    ["infrared", 0, 693.4],
    ["red", 1, 319.6],
    ["red", 0, 3226.6],
  ] as const)("%s at saturation %d has the tabled extinction %d", (colour, saturation, extinction) => {
    const path = colour === "red" ? c.redPath.value : 1;
    expect(absorption(colour, saturation) / (Math.LN10 * concentration * path)).toBeCloseTo(extinction, 6);
  });

  test("150 g/l are 2.326 mmol/l at 64 500 g/mol (arithmetic)", () => {
    expect(concentration).toBeCloseTo(2.326e-3, 6);
  });

  // Read in full: the table of Moaveni and Schmitt has 320 and 3200 at 660 nm, 1200 and 800 at 940 nm.
  test.each([
    [c.oxyRed, 320],
    [c.deoxyRed, 3200],
    [c.oxyInfrared, 1200],
    [c.deoxyInfrared, 800],
  ] as const)("row %# lies within 15 % of a second published table", (row, other) => {
    expect(Math.abs(row.value / other - 1)).toBeLessThan(0.15);
  });

  test("colours cross between 660 and 940 nm: red tells the two kinds of haemoglobin apart the other way round", () => {
    expect(absorption("red", 0)).toBeGreaterThan(absorption("red", 1));
    expect(absorption("infrared", 0)).toBeLessThan(absorption("infrared", 1));
  });
});

describe("rows of constants", () => {
  test.each(Object.entries(c))("%s lies within its own range and names its source", (_, row) => {
    expect(row.value).toBeGreaterThanOrEqual(row.low);
    expect(row.value).toBeLessThanOrEqual(row.high);
    expect(row.source.length).toBeGreaterThan(10);
    expect(row.what.length).toBeGreaterThan(10);
  });
});
