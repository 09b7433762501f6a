import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { PracticeError } from "../errors.js";
import { type Shown, watch } from "../testing/display-run.js";
import { type ProbeRunOptions, runProbe } from "../testing/probe-run.js";
import { displayConstants as c, createDisplay, type DisplayOptions, displayMessages } from "./index.js";

const at = (shown: readonly Shown[], time: number) => shown.findLast((one) => one.time <= time)!;
const between = (shown: readonly Shown[], from: number, to: number) =>
  shown.filter((one) => one.time >= from && one.time < to);
/** Share of the screen's height in use. */
const height = (shown: readonly Shown[]) => {
  const traces = shown.map((one) => one.trace);
  return Math.max(...traces) - Math.min(...traces);
};
const still: ProbeRunOptions["set"] = { drift: 0, mains: 0 };
/** A pulse that is gone from `gone` seconds on, quiet otherwise. */
const lost = (seconds: number, gone = 20, options: Partial<ProbeRunOptions> = {}) =>
  runProbe({ seconds, open: (t) => t < gone, ...options, set: { ...still, ...options.set } });

describe("a well-placed probe", () => {
  test.each([40, 70, 110, 180])("rate %d /min within 2, beat for beat", (beats) => {
    const shown = watch(runProbe({ seconds: 40, beats, spread: 0.02 }));
    // The generator's own setting is the truth; ±3 /min is what devices commonly claim (memory, clinical facts 10).
    expect(Math.abs(at(shown, 39.9).rate! - beats)).toBeLessThanOrEqual(2);
    const beeps = between(shown, 10, 40).filter((one) => one.beep).length;
    expect(Math.abs(beeps - beats / 2)).toBeLessThanOrEqual(1);
  });

  test.each([75, 85, 92, 97])(
    "SpO₂ %d within 3 by the textbook line (check 20 gives the light 2 of them)",
    (saturation) => {
      const shown = watch(runProbe({ seconds: 20, saturation: saturation / 100 }));
      expect(Math.abs(at(shown, 19.9).spo2! - saturation)).toBeLessThanOrEqual(3);
    },
  );

  test.each([0.3, 1, 4])(
    "perfusion index %d %% within a fifth, for the screen's filters round a beat off",
    (index) => {
      const pi = at(watch(runProbe({ seconds: 20, index }), { piResolution: 0.01 }), 19.9).pi!;
      expect(pi / index).toBeGreaterThan(0.75);
      expect(pi / index).toBeLessThan(1.2);
    },
  );

  // Bluetooth's pulse amplitude index has a resolution of 1 %: a sender may round 1.4 to 1 (clinical facts 0.15).
  test("perfusion index rounded to whole percent hides the first decimal", () => {
    const run = runProbe({ seconds: 20, index: 1.6 });
    expect(at(watch(run, { piResolution: 1 }), 19.9).pi).toBe(1);
    expect(at(watch(run, { piResolution: 0.1 }), 19.9).pi).toBeGreaterThan(1.1);
  });

  test("the tone falls with saturation (common practice, no source)", () => {
    const pitch = (saturation: number) => at(watch(runProbe({ seconds: 15, saturation })), 14.9).pitch;
    expect(pitch(0.97)).toBeGreaterThan(pitch(0.9));
    expect(pitch(0.9)).toBeGreaterThan(pitch(0.8));
  });

  test("more beats averaged, later shown: a sudden desaturation (common practice, no source)", () => {
    const both = [0.97, 0.8].map((saturation) => runProbe({ seconds: 40, saturation, seed: 2 }));
    const [high, low] = both as [ReturnType<typeof runProbe>, ReturnType<typeof runProbe>];
    const infrared = Float64Array.from(high.infrared, (x, n) => (n < 2500 ? x : low.infrared[n]!));
    const red = Float64Array.from(high.red, (x, n) => (n < 2500 ? x : low.red[n]!));
    const seen = (averageBeats: number) =>
      watch({ ...high, infrared, red }, { averageBeats }).find((one) => one.time > 20 && one.spo2! < 85)!
        .time;
    expect(seen(4)).toBeLessThan(seen(8));
    expect(seen(8)).toBeLessThan(seen(16));
  });
});

describe("after the pulse is lost", () => {
  // Clinical facts 2: last values held about 10 s, then dashes; notice from 6 s on a still limb.
  test("numbers stand for ten seconds over a dead trace, then dashes", () => {
    const shown = watch(lost(45));
    const held = at(shown, 28);
    expect(held.rate).toBe(at(shown, 28 - held.age + 0.01).rate);
    expect(Math.abs(held.rate! - 70)).toBeLessThanOrEqual(2);
    expect(held.spo2).not.toBeNull();
    expect(held.age).toBeGreaterThan(2.5);
    const dashes = shown.find((one) => one.time > 20 && one.rate === null)!;
    expect(dashes.age).toBeCloseTo(10, 1);
    expect(between(shown, 33, 45).every((one) => one.rate === null && one.pi === null)).toBe(true);
  });

  test.each([0, 5, 30])("a hold of %d s", (holdSeconds) => {
    const dashes = watch(lost(60), { holdSeconds }).find((one) => one.time > 21 && one.rate === null)!;
    expect(dashes.age).toBeGreaterThan(holdSeconds - 0.02);
    if (holdSeconds > 1) expect(dashes.age).toBeLessThan(holdSeconds + 0.1);
  });

  test("searching, ok, held and the notice at 6 s come in that order", () => {
    const shown = watch(lost(40));
    const order = [...new Set(shown.map((one) => one.message))];
    expect(order).toEqual(["searching", "ok", "held", "pulse-lost-notice"]);
    const notice = shown.find((one) => one.message === "pulse-lost-notice")!;
    expect(notice.age).toBeCloseTo(c.stillNotice.value, 1);
    expect(notice.rate).not.toBeNull();
  });

  // Clinical facts 2: some devices keep quiet for up to 60 s while a cuff is inflated.
  test("told of a cuff, it keeps the notice back for 60 s", () => {
    const shown = watch(lost(95), {}, (time, display) => {
      display.cuffInflating = time > 18;
    });
    const notice = shown.find((one) => one.message === "pulse-lost-notice")!;
    expect(notice.age).toBeCloseTo(c.cuffNotice.value, 1);
  });

  // Clinical facts 2: up to 50 s while moving.
  test("irregular movement keeps the notice back for up to 50 s", () => {
    const shown = watch(
      lost(100, 20, {
        before: (t, controls) => {
          controls.knocks = t > 20 ? 30 : 0;
          controls.knocksPerMinute = 60;
        },
      }),
    );
    const notice = shown.find((one) => one.message === "pulse-lost-notice");
    expect(notice === undefined ? 99 : notice.age).toBeGreaterThan(2 * c.stillNotice.value);
  });

  // Section 3 of the model's physiology: noise fills the screen after a loss unless a floor is set.
  test("noise fills the screen, unless a floor keeps small things small", () => {
    const run = lost(60, 20, { set: { photocurrent: 10 } });
    const [free, floored] = [watch(run), watch(run, { floor: true })];
    expect(height(between(free, 40, 60))).toBeGreaterThan(0.5);
    expect(height(between(floored, 40, 60))).toBeLessThan(0.25);
    expect(height(between(floored, 10, 19))).toBeGreaterThan(0.6);
  });

  test("a pulse of a twentieth looks as large as before after some seconds", () => {
    const full = height(between(watch(runProbe({ seconds: 30, set: still })), 20, 30));
    const weak = height(
      between(watch(runProbe({ seconds: 30, index: 0.1, set: { ...still, photocurrent: 500 } })), 20, 30),
    );
    expect(weak / full).toBeGreaterThan(0.8);
    expect(weak / full).toBeLessThan(1.25);
  });
});

describe("fooled", () => {
  test("regular rubbing without any pulse is a pulse to it, with a rate and an SpO₂ near 85 (R goes to 1)", () => {
    const shown = watch(runProbe({ seconds: 40, index: 0, set: { rubbing: 3, rubbingRate: 100 } }));
    const last = at(shown, 39);
    expect(Math.abs(last.rate! - 100)).toBeLessThan(8);
    expect(Math.abs(last.spo2! - 85)).toBeLessThanOrEqual(3);
    expect(last.message).toBe("ok");
  });

  test("the shaking of the body alone gives the heart's own rate, without blood", () => {
    const shown = watch(runProbe({ seconds: 40, index: 0, set: { heartShake: 0.3, photocurrent: 200 } }));
    const last = at(shown, 39);
    expect(Math.abs(last.rate! - 70)).toBeLessThan(5);
  });

  test("a slipping probe makes the trace leave the screen, and numbers stand meanwhile", () => {
    const run = runProbe({
      seconds: 40,
      before: (t, controls) => {
        controls.slip = t > 20 ? 0.2 : 0;
      },
    });
    const shown = watch(run);
    expect(Math.max(...between(shown, 20, 25).map((one) => Math.abs(one.trace - 0.5)))).toBe(0.5);
    expect(at(shown, 23).rate).not.toBeNull();
    expect(Math.abs(at(shown, 39).rate! - 70)).toBeLessThanOrEqual(2);
  });
});

describe("the probe itself", () => {
  test.each(["off", "unplugged"] as const)(
    "%s is told within 2 s, numbers go, and come back with the probe",
    (contact) => {
      const shown = watch(
        runProbe({
          seconds: 40,
          before: (t, controls) => {
            controls.contact = t > 15 && t < 25 ? contact : "on";
          },
        }),
      );
      expect(at(shown, 17)).toMatchObject({ message: "no-probe", rate: null, spo2: null, pi: null });
      expect(between(shown, 17, 25).some((one) => one.beep)).toBe(false);
      expect(at(shown, 26).message).toBe("searching");
      expect(at(shown, 38)).toMatchObject({ message: "ok" });
      expect(Math.abs(at(shown, 38).rate! - 70)).toBeLessThanOrEqual(2);
    },
  );
});

describe("anything at all", () => {
  const options = fc.record({
    rate: fc.constantFrom(25, 50, 125, 1000),
    averageBeats: fc.integer({ min: 4, max: 16 }),
    holdSeconds: fc.integer({ min: 0, max: 60 }),
    floor: fc.boolean(),
    piResolution: fc.constantFrom(0.01, 0.1, 1) as fc.Arbitrary<0.01 | 0.1 | 1>,
  });
  test("any light within the scale: trace within the screen, numbers within their ranges or dashes", () => {
    const light = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        options,
        fc.array(fc.tuple(light, light), { minLength: 1, maxLength: 400 }),
        (set, samples) => {
          const display = createDisplay(set);
          for (let again = 0; again < 3; again++) {
            for (const [infrared, red] of samples) {
              display.push(infrared, red);
              const { trace, spo2, rate, pi, age, pitch, message } = display;
              const fits =
                trace >= 0 &&
                trace <= 1 &&
                (spo2 === null || (spo2 >= 0 && spo2 <= 100)) &&
                (rate === null || (rate >= 25 && rate <= 240)) &&
                (pi === null || (pi >= 0 && pi <= 20)) &&
                age >= 0 &&
                pitch > 0 &&
                displayMessages.includes(message) &&
                (rate === null) === (spo2 === null);
              if (!fits) throw new Error(JSON.stringify({ trace, spo2, rate, pi, age, pitch, message }));
            }
          }
          expect(display.trace).toBeLessThanOrEqual(1);
        },
      ),
      { numRuns: 60 },
    );
  });

  test.each([
    [{ rate: 10 }, "bad-rate"],
    [{ averageBeats: 3 }, "out-of-range"],
    [{ averageBeats: 17 }, "out-of-range"],
    [{ holdSeconds: -1 }, "out-of-range"],
    [{ holdSeconds: Number.NaN }, "out-of-range"],
    [{ piResolution: 0.5 }, "out-of-range"],
  ])("%o is refused with %s", (wrong, code) => {
    const set = { rate: 125, ...wrong } as DisplayOptions;
    expect(() => createDisplay(set)).toThrow(PracticeError);
    expect(() => createDisplay(set)).toThrow(new RegExp(`^${code}`));
  });

  test.each(Object.entries(c))("row %s lies within its own range", (_, row) => {
    expect(row.value).toBeGreaterThanOrEqual(row.low);
    expect(row.value).toBeLessThanOrEqual(row.high);
  });
});
