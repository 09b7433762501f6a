/** Random pairs of readings and contexts, from undisturbed to hopeless. */
import fc from "fast-check";
import { captureGrades, digits } from "../../model/index.js";
import { mechanisms } from "../../rules/index.js";
import type { Declared, SideContext } from "../declared.js";
import {
  displayTrace,
  found,
  likely,
  notFound,
  type Recipe,
  rawLight,
  undisturbed,
  unreferenced,
} from "./make-reading.js";

const maybe = fc.constantFrom<boolean | null>(true, false, null);

const declared: fc.Arbitrary<Declared> = fc.oneof(
  { weight: 3, arbitrary: fc.constant(undisturbed) },
  {
    weight: 2,
    arbitrary: fc.record({
      cuff: maybe,
      pump: maybe,
      cold: maybe,
      block: maybe,
      covered: maybe,
      height: fc.constantFrom<Declared["height"]>("at heart", "above", "below", null),
    }),
  },
);

const grades = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...captureGrades).map((one) => [one, one, one]) },
  { weight: 4, arbitrary: fc.constant(["solid", "solid", "solid"] as const) },
  { weight: 2, arbitrary: fc.array(fc.constantFrom(...captureGrades), { maxLength: 4 }) },
);

const presence = fc.oneof(
  fc.constant(null),
  fc.constant(unreferenced),
  fc.constant(likely),
  fc.double({ min: 0.005, max: 3, noNaN: true }).map(found),
  fc.option(fc.double({ min: 0.005, max: 3, noNaN: true })).map(notFound),
);

const digit = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom("middle finger" as const, "great toe" as const) },
  fc.constantFrom(...digits),
);

/** A solid capture under good conditions, so that size and timing decide. */
function clean(side: "left" | "right"): fc.Arbitrary<Recipe> {
  return fc.record({
    site: fc.oneof(
      { weight: 5, arbitrary: fc.constant({ side, digit: "middle finger" as const }) },
      fc.constant(null),
    ),
    channel: fc.constant(rawLight),
    grades: fc.oneof(
      { weight: 8, arbitrary: fc.constant(["solid", "solid", "solid"] as const) },
      fc.constant(["solid"] as const),
    ),
    rate: fc.constantFrom(72, 72, 75, 60),
    pi: fc.double({ min: Math.log(0.1), max: Math.log(10), noNaN: true }).map(Math.exp),
    scatter: fc.constantFrom(0, 0.1, 0.4),
    arrival: fc.oneof(
      { weight: 3, arbitrary: fc.constant(200) },
      fc.double({ min: 150, max: 260, noNaN: true }),
    ),
    jitter: fc.constantFrom(0, 7),
    beats: fc.constant(true),
    ecg: fc.boolean(),
    presence: fc.constant(null),
    level: fc.constant(50_000),
    shape: fc.constant(null),
    spo2: fc.option(fc.integer({ min: 92, max: 100 })),
    declared: fc.constant(undisturbed),
    seed: fc.integer({ min: 1, max: 1e6 }),
  });
}

/** Anything may be wrong, and much usually is. */
function wild(side: "left" | "right"): fc.Arbitrary<Recipe> {
  return fc.record({
    site: fc.option(
      digit.map((one) => ({ side, digit: one })),
      { freq: 6 },
    ),
    channel: fc.oneof(
      { weight: 5, arbitrary: fc.constant(rawLight) },
      { weight: 2, arbitrary: fc.constant(displayTrace) },
      { weight: 1, arbitrary: fc.constant({ ...rawLight, colour: "red" as const }) },
    ),
    grades,
    rate: fc.oneof({ weight: 5, arbitrary: fc.constant(72) }, fc.double({ min: 30, max: 220, noNaN: true })),
    pi: fc.oneof(
      { weight: 3, arbitrary: fc.constantFrom(1.5, 2, 2.5) },
      fc.double({ min: Math.log(0.02), max: Math.log(20), noNaN: true }).map(Math.exp),
    ),
    scatter: fc.constantFrom(0, 0.1, 0.4),
    arrival: fc.oneof(
      { weight: 3, arbitrary: fc.constant(200) },
      fc.double({ min: 120, max: 320, noNaN: true }),
    ),
    jitter: fc.constantFrom(0, 7, 20),
    beats: fc.oneof({ weight: 6, arbitrary: fc.constant(true) }, fc.constant(false)),
    ecg: fc.boolean(),
    presence,
    level: fc.constantFrom(null, 50_000),
    shape: fc.constant(null),
    spo2: fc.option(fc.integer({ min: 80, max: 100 })),
    declared,
    seed: fc.integer({ min: 1, max: 1e6 }),
  });
}

/** Sound and suspect recipe; clean and wild in every combination. */
export const pairs: fc.Arbitrary<readonly [Recipe, Recipe]> = fc.oneof(
  { weight: 3, arbitrary: fc.tuple(clean("right"), clean("left")) },
  { weight: 3, arbitrary: fc.tuple(clean("right"), wild("left")) },
  { weight: 2, arbitrary: fc.tuple(wild("right"), wild("left")) },
);

export const contexts: fc.Arbitrary<SideContext> = fc.oneof(
  {
    weight: 2,
    arbitrary: fc.constant({
      oneClock: true,
      mechanism: "fracture" as const,
      sameDigit: true,
      sameHeight: true,
      sameProbe: true,
      soundHurt: false,
    }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      oneClock: fc.boolean(),
      mechanism: fc.option(fc.constantFrom(...mechanisms.map((row) => row.id))),
      sameDigit: maybe,
      sameHeight: maybe,
      sameProbe: maybe,
      soundHurt: maybe,
    }),
  },
);
