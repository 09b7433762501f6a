import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type CaptureGrade, captureGrades, type Percent, seconds } from "../model/index.js";
import { combineGrades } from "./combine-grades.js";
import { takeReading } from "./reading.js";
import { judgeSaturation } from "./saturation.js";
import {
  displayTrace,
  found,
  left,
  makeInput,
  makeReading,
  makeWindows,
  notFound,
  unreferenced,
} from "./testing/make-reading.js";

const grade = (...grades: CaptureGrade[]) => combineGrades(makeWindows(grades)).capture;

describe("grade of a reading", () => {
  test.each([
    [["solid", "solid"], "solid"],
    [["solid", "shaky"], "shaky"],
    [["solid", "none"], "shaky"],
    [["solid", "unreadable", "solid"], "shaky"],
    [["solid", "off"], "shaky"],
    [["none", "none"], "none"],
    [["none", "unreadable"], "unreadable"],
    [["none", "off"], "off"],
    [["off", "unreadable"], "off"],
    [["unreadable", "unreadable"], "unreadable"],
    [[], "unreadable"],
  ] as const)("%j together are %s", (grades, expected) => {
    expect(grade(...grades)).toBe(expected);
  });

  test("a pulse lost on the way is named", () => {
    expect(combineGrades(makeWindows(["solid", "none"])).reasons.map((one) => one.code)).toContain(
      "pulse-lost",
    );
  });

  test("S2: solid needs every window solid, none needs every window none", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...captureGrades), { maxLength: 6 }), (grades) => {
        const capture = grade(...grades);
        expect(capture === "solid").toBe(grades.length > 0 && grades.every((one) => one === "solid"));
        expect(capture === "none").toBe(grades.length > 0 && grades.every((one) => one === "none"));
      }),
    );
  });

  test("overlapping windows outside the stretch say nothing about it; one that reaches over its end does", () => {
    const hop = (from: number, capture: CaptureGrade) => ({
      ...makeWindows([capture])[0]!,
      from: seconds(from),
      to: seconds(from + 5),
    });
    const overlapping = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12].map((from) =>
      hop(from, from < 3 || from > 9 ? "unreadable" : "solid"),
    );
    const input = { ...makeInput(), from: seconds(3), to: seconds(14) };
    expect(takeReading({ ...input, windows: overlapping }).capture).toBe("solid");
    const joined = [hop(0, "unreadable"), hop(5, "solid"), hop(10, "solid")];
    expect(takeReading({ ...input, windows: joined }).capture).toBe("shaky");
    expect(takeReading({ ...input, from: seconds(5), windows: joined }).capture).toBe("solid");
  });

  test("a hole between windows, or less than one window, is neither solid nor none", () => {
    for (const capture of ["solid", "none"] as const) {
      const [first, , third] = makeWindows([capture, capture, capture]);
      expect(combineGrades([first!, third!]).capture).not.toBe(capture);
      expect(combineGrades([{ ...first!, to: seconds(3) }]).capture).not.toBe(capture);
    }
  });

  test("too few beats, or a reference that denies the wave, lower solid to shaky and say so", () => {
    const few = takeReading({ ...makeInput(), beats: makeInput().beats.slice(0, 4) });
    expect([few.capture, few.reasons[0]?.code]).toEqual(["shaky", "too-few-beats"]);
    const denied = makeReading({ presence: notFound(0.1) });
    expect([denied.capture, denied.reasons[0]?.code]).toEqual(["shaky", "reference-disagrees"]);
    expect(makeReading({ presence: found(2) }).capture).toBe("solid");
    expect(makeReading({ presence: unreferenced }).capture).toBe("solid");
  });
});

describe("a reference that finds no wave", () => {
  const graded = (grades: CaptureGrade[]) => makeReading({ grades, beats: false, presence: notFound(0.02) });

  test("makes none of windows that are none or shaky, with one none at least", () => {
    expect(graded(["none", "shaky", "none"]).capture).toBe("none");
    expect(graded(["none", "shaky"]).reasons[0]?.code).toBe("reference-disagrees");
  });

  test("makes none of nothing else: movement, a probe off and pulses that were solid stay what they are", () => {
    expect(graded(["shaky", "shaky"]).capture).toBe("shaky");
    expect(graded(["none", "shaky", "unreadable"]).capture).toBe("shaky");
    expect(graded(["none", "shaky", "off"]).capture).toBe("shaky");
    expect(graded(["none", "solid"]).capture).toBe("shaky");
    expect(makeReading({ grades: ["none", "shaky"], beats: false, presence: unreferenced }).capture).toBe(
      "shaky",
    );
  });
});

describe("numbers of a reading", () => {
  test("rate and PI come back as put in, inside their intervals", () => {
    const reading = makeReading({ rate: 90, pi: 1.4, scatter: 0.2 });
    expect(reading.pulseRate!.value).toBeCloseTo(90, -0.5);
    expect(reading.perfusionIndex!.low).toBeLessThan(1.4);
    expect(reading.perfusionIndex!.high).toBeGreaterThan(1.4);
  });

  // Allen and Murray 2000: thumb foot 199 ms after the R wave.
  test("the foot comes 199 ms after the R wave when it was put there", () => {
    const reading = makeReading({ ecg: true, arrival: 199 });
    expect(Math.abs(reading.arrival!.value - 199)).toBeLessThan(5);
    expect(makeReading({ arrival: 199 }).arrival).toBeNull();
  });

  test("S2: no number but the presence test's own unless solid", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...captureGrades), { minLength: 1, maxLength: 4 }), (grades) => {
        fc.pre(grades.some((one) => one !== "solid"));
        const reading = makeReading({
          grades,
          ecg: true,
          spo2: 98,
          shape: { from: seconds(0), values: [0, 1, 0], step: seconds(0.1) },
        });
        expect([reading.pulseRate, reading.perfusionIndex, reading.arrival, reading.shape]).toEqual([
          null,
          null,
          null,
          null,
        ]);
        expect(reading.saturation!.fault).not.toBeNull();
      }),
    );
  });

  test("S3: a display trace has a rate and never a PI", () => {
    const reading = makeReading({ channel: displayTrace, presence: found(2) });
    expect(reading.pulseRate).not.toBeNull();
    expect([reading.perfusionIndex, reading.foundIndex]).toEqual([null, null]);
  });

  test("S4: the site is the one handed over, or null", () => {
    expect(makeReading({ site: left }).site).toEqual(left);
    expect(makeReading().site).toBeNull();
  });

  test("beats outside the graded stretch are left out", () => {
    const input = makeInput();
    const reading = takeReading({ ...input, windows: input.windows.slice(1, 3) });
    expect([reading.from, reading.to]).toEqual([5, 15]);
    expect(reading.beats.every((beat) => beat.peak >= 5 && beat.peak <= 15)).toBe(true);
    expect(reading.beats.length).toBeGreaterThan(9);
  });
});

describe("S2: an SpO2 number beside the trace", () => {
  const at = (time: number, value = 97) => ({ time: seconds(time), value: value as Percent });
  const judge = (numbers: ReturnType<typeof at>[], capture: CaptureGrade = "solid") =>
    judgeSaturation(numbers, seconds(100), seconds(110), capture);

  test.each([
    ["solid", null],
    ["shaky", "capture-not-solid"],
    ["unreadable", "capture-not-solid"],
    ["none", "held-over-dead-trace"],
    ["off", "held-over-dead-trace"],
  ] as const)("over a %s trace has the fault %s", (capture, fault) => {
    expect(judge([at(105)], capture)?.fault).toBe(fault);
  });

  test("keeps its age, and is stale when none came in the stretch", () => {
    const old = judge([at(70)])!;
    expect([old.value, old.age, old.fault]).toEqual([97, 40, "stale"]);
  });

  test("is the median of the stretch, never of numbers to come", () => {
    expect(judge([at(101, 90), at(102, 96), at(103, 97), at(120, 50)])?.value).toBe(96);
    expect(judge([at(120)])).toBeNull();
  });
});
