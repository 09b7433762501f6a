import { expect, test } from "vitest";
import { nothingDeclared } from "../limb/index.js";
import { makeReading, notFound, rawLight } from "../limb/testing/make-reading.js";
import type { CaptureGrade } from "../model/index.js";
import { sideRows } from "./side-rows.js";

const reading = (grade: CaptureGrade, more: object = {}) =>
  makeReading({ channel: rawLight, grades: [grade, grade, grade], ...more });
const cells = (grade: CaptureGrade, more: object = {}) =>
  Object.fromEntries(sideRows(reading("solid"), reading(grade, more)).map((row) => [row.label, row.suspect]));

test.each(["shaky", "none", "off", "unreadable"] as const)(
  "S2: over a trace that is %s no number stands believable",
  (grade) => {
    const shown = cells(grade, { spo2: 97, beats: false });
    expect(shown["pulse rate"]).toEqual({ text: "–" });
    expect(shown["perfusion index"]).toEqual({ text: "–" });
    expect(shown["SpO₂ shown"]).toMatchObject({ text: expect.stringContaining("97 %"), struck: true });
  },
);

test("S2: the largest wave that could hide is believed under a working probe only", () => {
  const limit = (grade: CaptureGrade) =>
    cells(grade, { beats: false, presence: notFound(0.04) })["perfusion index"];
  expect(limit("none")).toEqual({ text: "below 0.04 %", struck: false });
  expect(limit("unreadable")).toEqual({ text: "below 0.04 %", struck: true });
});

test("numbers of a solid side stand as they are", () => {
  const shown = cells("solid", { spo2: 97 });
  expect(shown["SpO₂ shown"]).toEqual({ text: "97 %" });
  expect(shown["pulse rate"]?.text).toMatch(/^\d+ \/min$/);
  expect(shown["perfusion index"]?.text).toMatch(/^\d(\.\d)? %$/);
});

test("S6: a cuff stands over the values of its side", () => {
  const declared = (cuff: boolean | null) => ({ declared: { ...nothingDeclared, cuff } });
  const rows = sideRows(reading("solid", declared(false)), reading("solid", declared(true)));
  expect(rows[0]).toEqual({
    label: "cuff or tourniquet",
    sound: { text: "no" },
    suspect: { text: "above probe" },
  });
  expect(cells("solid", declared(null))["cuff or tourniquet"]).toBeUndefined();
});
