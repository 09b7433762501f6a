import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { heartRows, restingHeart, restingSite, siteRows } from "../controls/index.js";
import { createHeart } from "../heart/index.js";
import { between, limbBeats, medianOf } from "../testing/limb-beats.js";
import { evenHeart, runLimb } from "../testing/limb-run.js";
import { constants } from "./constants.js";
import { usualPerson } from "./person.js";
import { places } from "./places.js";
import { createVessels, hands } from "./vessels.js";

const dt = 0.002;
const heart = () => createHeart({ seed: 1, dt, controls: restingHeart() }).now;

describe("any turn of any control at any step", () => {
  const row = (rows: readonly { name: string; min: number; max: number }[]) =>
    fc.constantFrom(...rows).chain(({ name, min, max }) =>
      fc.record({
        name: fc.constant(name),
        value: fc.oneof(fc.constantFrom(min, max), fc.double({ min, max, noNaN: true })),
      }),
    );
  const turns = fc.array(
    fc.record({ steps: fc.integer({ min: 1, max: 2500 }), site: row(siteRows), heart: row(heartRows) }),
    { minLength: 6, maxLength: 14 },
  );
  const persons = fc.record({
    chokePressure: fc.double({ min: -12, max: -2, noNaN: true }),
    compliance: fc.double({ min: 0.5, max: 2, noNaN: true }),
    digitTime: fc.double({ min: 0.05, max: 0.3, noNaN: true }),
    closing: fc.double({ min: 5, max: 45, noNaN: true }),
    recruitment: fc.constantFrom(null, { resistance: 40, time: 30 }),
  });

  test("leaves every number finite and within what blood can do", () => {
    const kinds = fc.constantFrom(...places.map((place) => ({ place, hand: hands[0] })), {
      place: "finger" as const,
      hand: hands[1],
    });
    fc.assert(
      fc.property(
        kinds,
        persons,
        turns,
        fc.integer({ min: 0, max: 999 }),
        ({ place, hand }, person, list, seed) => {
          const heartControls = restingHeart();
          const controls = restingSite();
          const beating = createHeart({ seed, dt, controls: heartControls });
          const vessels = createVessels({ place, hand, person, dt, heart: beating.now, controls });
          const { now } = vessels;
          let highest = 0;
          for (const turn of list) {
            (controls as Record<string, number | string>)[turn.site.name] = turn.site.value;
            (heartControls as Record<string, number | string>)[turn.heart.name] = turn.heart.value;
            for (let n = 0; n < turn.steps; n++) {
              beating.step();
              vessels.step();
              highest = Math.max(highest, beating.now.aortic);
              // A wave doubles at a closed end; nothing draws a vessel below the pressure of the room by more than its ring.
              const held =
                now.upstream > -100 &&
                now.upstream < 2.5 * highest + 20 &&
                now.downstream > -100 &&
                now.downstream < 2.5 * highest + 20 &&
                now.digit >= 0 &&
                now.digit < 2.5 * highest + 120 &&
                now.venous >= 0 &&
                now.venous < 2.5 * highest + 20 &&
                now.arterialPath > 0 &&
                now.arterialPath < 0.5 &&
                now.venousPath > 0 &&
                now.venousPath < 1 &&
                now.saturation >= 0 &&
                now.saturation <= 1 &&
                now.flowFraction >= 0 &&
                now.flowFraction < 100 &&
                now.muscleFraction >= 0 &&
                now.muscleFraction < 100 &&
                Math.abs(now.mainFlow) < 100 &&
                Math.abs(now.collateralFlow) < 100 &&
                now.external >= 0;
              if (!held) throw new Error(`step ${n} after ${JSON.stringify(turn)}: ${JSON.stringify(now)}`);
            }
          }
          expect(highest).toBeGreaterThan(0);
        },
      ),
      { numRuns: 60, seed: 20 },
    );
  });
});

describe("what is asked of it", () => {
  test.each([0, 0.0021, Number.NaN])("a step of %d s is refused", (bad) => {
    expect(() =>
      createVessels({ place: "finger", dt: bad, heart: heart(), controls: restingSite() }),
    ).toThrow(/^bad-rate/);
  });
  test.each(["toe", "ear"] as const)("a %s with two arteries is refused", (place) => {
    expect(() =>
      createVessels({ place, hand: "two-arteries", dt, heart: heart(), controls: restingSite() }),
    ).toThrow(/^unknown-choice/);
  });
  test.each([{ gain: 0 }, { chokePressure: 0 }, { delay: 2 }, { recruitment: { resistance: 40, time: 0 } }])(
    "a person with %j is refused",
    (person) => {
      expect(() =>
        createVessels({ place: "finger", person, dt, heart: heart(), controls: restingSite() }),
      ).toThrow(/^out-of-range/);
    },
  );
  test("every constant lies within the range its row gives", () => {
    for (const [name, row] of Object.entries(constants)) {
      expect(row.value, name).toBeGreaterThanOrEqual(row.low);
      expect(row.value, name).toBeLessThanOrEqual(row.high);
      expect(row.source.length, name).toBeGreaterThan(3);
    }
    expect(usualPerson.gain).toBe(constants.gain.value);
  });
});

describe("physics that holds whatever the constants are", () => {
  test("a cuff above the highest pressure lets nothing through, by either way", () => {
    const run = runLimb({
      seconds: 60,
      turn: (time, site) => {
        site.cuff = time < 20 ? 0 : 250;
      },
    });
    // The flow that a closing cuff cuts off dies away within a second.
    const from = Math.round(22 / run.dt);
    expect(Math.max(...run.mainFlow.slice(from).map(Math.abs))).toBeLessThan(1e-9);
    expect(Math.max(...run.collateralFlow.slice(from).map(Math.abs))).toBe(0);
  });

  test("a cuff or a narrowing does nothing to an ear", () => {
    const open = runLimb({ place: "ear", seconds: 10 });
    const shut = runLimb({
      place: "ear",
      seconds: 10,
      site: { cuff: 200, narrowing: 1, tissue: 100, band: 100 },
    });
    expect(shut.infrared).toEqual(open.infrared);
  });

  test("over minutes, what flows in flows out: inflow equals what the beds take", () => {
    const run = runLimb({ seconds: 120, heart: evenHeart, quietTone: true });
    const from = Math.round(60 / run.dt);
    const mean = (values: Float64Array) =>
      values.slice(from).reduce((sum, value) => sum + value, 0) / (values.length - from);
    // At rest 0.59 ml/s to muscle and 0.42 to the hand: (92 − 10)/140 and (92 − 12)/190.
    expect(mean(run.mainFlow) + mean(run.collateralFlow)).toBeGreaterThan(0.95);
    expect(mean(run.mainFlow) + mean(run.collateralFlow)).toBeLessThan(1.07);
  });

  test("a shut artery leaves a late, weak pulse that comes by the way round it; with none, nothing", () => {
    const shut = { narrowing: 1 };
    const beats = (site: object) =>
      between(limbBeats(runLimb({ seconds: 60, heart: evenHeart, quietTone: true, site })), 40, 60);
    const open = beats({});
    const round = beats({ ...shut, collateral: 60 });
    const none = beats({ ...shut, collateral: 1e6 });
    expect(medianOf(round, "perfusionIndex") / medianOf(open, "perfusionIndex")).toBeLessThan(0.6);
    expect(medianOf(round, "perfusionIndex")).toBeGreaterThan(0.05);
    expect(medianOf(round, "foot")).toBeGreaterThan(medianOf(open, "foot") + 0.03);
    expect(medianOf(none, "perfusionIndex")).toBeLessThan(0.001);
  });

  test("a cold digit asks for less flow: it does not warm itself up over minutes", () => {
    const site = { tone: 1.5 };
    const run = runLimb({ seconds: 320, heart: evenHeart, quietTone: true, site });
    const beats = limbBeats(run);
    const early = medianOf(between(beats, 30, 50), "perfusionIndex");
    expect(Math.abs(medianOf(between(beats, 300, 320), "perfusionIndex") / early - 1)).toBeLessThan(0.1);
  });

  test("under a full cuff the tone's own waves move no blood: nothing that looks like a beat is left", () => {
    const run = runLimb({
      seconds: 120,
      turn: (time, site) => {
        site.cuff = time < 20 ? 0 : 250;
      },
    });
    expect(medianOf(between(limbBeats(run), 60, 120), "perfusionIndex")).toBeLessThan(0.01);
  });

  test("half the step changes the pulse by less than 2 % and its arrival by less than 3 ms", () => {
    const read = (step: number) =>
      between(limbBeats(runLimb({ seconds: 40, dt: step, heart: evenHeart, quietTone: true })), 25, 40);
    const coarse = read(0.002);
    const fine = read(0.001);
    expect(Math.abs(medianOf(coarse, "perfusionIndex") / medianOf(fine, "perfusionIndex") - 1)).toBeLessThan(
      0.02,
    );
    expect(Math.abs(medianOf(coarse, "foot") - medianOf(fine, "foot"))).toBeLessThan(0.003);
  });
});
