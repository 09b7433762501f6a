import { describe, expect, test } from "vitest";
import { type CaptureContext, gradeCapture } from "./capture-grade.js";
import type { WindowEvidence } from "./quality-window.js";

/** A stretch in which small swings were taken for beats; what is not looked at is left out. */
const smallSwings = {
  seconds: 5,
  missing: 0,
  flat: 0,
  longestFlat: 0,
  clipped: 0,
  longestClip: 0,
  wraps: 0,
  steps: 0,
  beats: 8,
  interval: 0.55,
  gap: 1.6,
  intervalRatio: 2,
  shapes: {
    count: 8,
    meanCorrelation: 0.7,
    minCorrelation: 0.2,
    rest: 0.9,
    steepness: 1.2,
    crest: 0.1,
    edge: 0.2,
    cycles: 1.5,
    size: 7,
    sizeRatio: 2,
    sizeJump: 0.4,
    baseMove: 0.8,
  },
};

const stir = { quiet: 5, median: 6, upper: 7, top: 1.6, share: 0 };
const rhythm = { share: 0.3, slowShare: 0.1, smooth: 0.95, narrow: 0.2 };

function grade(
  pulseSize: number,
  changes: {
    readonly stir?: Partial<typeof stir>;
    readonly chance?: number;
    readonly shapes?: Partial<typeof smallSwings.shapes>;
    readonly steps?: number;
  } = {},
): string {
  const evidence = {
    ...smallSwings,
    steps: changes.steps ?? 0,
    shapes: { ...smallSwings.shapes, ...changes.shapes },
  };
  const context: CaptureContext = {
    quantum: 0.01,
    pulseSize,
    lostBeats: 0,
    stillLost: false,
    chance: () => changes.chance ?? 0.3,
    rhythm: () => rhythm,
    stir: () => ({ ...stir, ...changes.stir }),
  };
  return gradeCapture(evidence as WindowEvidence, context).capture;
}

// Pulses of size 100 before, swings of at most 7 within half a second now: what hides is below 7 %.
describe("small swings after large pulses", () => {
  test("are no pulse wave, however alike some of them are by chance", () => {
    expect(grade(100)).toBe("none");
  });

  test.each([
    { what: "with a pulse's own shape", changes: { shapes: { meanCorrelation: 0.85 } } },
    { what: "in a rhythm that chance hardly makes", changes: { chance: 0.0005 } },
    {
      what: "in a rhythm, where a tenth of the pulse could hide",
      changes: { stir: { upper: 10 }, chance: 0.015 },
    },
    { what: "that are not so small", changes: { stir: { upper: 13 } } },
    { what: "with one large one among them", changes: { stir: { top: 11 } } },
    { what: "on a step of the level", changes: { steps: 1 } },
  ])("$what may be pulses", ({ changes }) => {
    expect(grade(100, changes)).toBe("shaky");
  });

  test("a shape that rises as slowly as a breath is not a pulse's own", () => {
    expect(grade(100, { shapes: { meanCorrelation: 0.85, crest: 0.5 } })).toBe("none");
  });
});

test("the same swings are not called none if nothing tells how large a pulse would be (S5)", () => {
  expect(grade(Number.NaN)).toBe("shaky");
  expect(grade(Number.NaN, { shapes: { meanCorrelation: 0.3 } })).toBe("unreadable");
});
