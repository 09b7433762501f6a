import { describe, expect, test } from "vitest";
import { pulseLikeLimits, pulseLikeness } from "./quality-pulse-like.js";
import type { WindowEvidence } from "./quality-window.js";

/** Even pulses at 75/min; what is not looked at is left NaN. */
const evenPulses = {
  seconds: 5,
  interval: 0.8,
  gap: 1,
  intervalRatio: 1.05,
  shapes: { count: 6, rest: 0.1, steepness: 1.8, crest: 0.12, edge: 0.18, sizeJump: 0.05 },
};

type Change = Partial<Omit<typeof evenPulses, "shapes">> & {
  readonly shapes?: Partial<typeof evenPulses.shapes>;
};

function fine(change: Change): boolean {
  const evidence = { ...evenPulses, ...change, shapes: { ...evenPulses.shapes, ...change.shapes } };
  return pulseLikeness(evidence as unknown as WindowEvidence, pulseLikeLimits).fine;
}

// The values are those of stretches met in `data/` and in strokes made by testing/strokes.ts, rounded.
describe("taken for a pulse", () => {
  test.each<Change & { readonly what: string }>([
    { what: "an ordinary one" },
    {
      what: "one that breath makes uneven in size and base",
      shapes: { rest: 0.25, steepness: 2.4, sizeJump: 0.12 },
    },
    {
      what: "a smooth one that rises fast and differs little",
      shapes: { rest: 0.06, steepness: 2.6, crest: 0.21, edge: 0.06 },
    },
    {
      what: "one with overtones that falls as fast as it rises",
      shapes: { steepness: 0.95, edge: 0.26, sizeJump: 0.14 },
    },
    {
      what: "one with an early beat in between",
      intervalRatio: 1.67,
      shapes: { rest: 0.23, edge: 0.2, sizeJump: 0.36 },
    },
    { what: "a fast one without room for overtones", interval: 0.3, shapes: { steepness: 1.3, edge: 0.08 } },
  ])("$what", ({ what: _, ...change }) => {
    expect(fine(change)).toBe(true);
  });
});

describe("not taken for a pulse", () => {
  test.each<Change & { readonly what: string }>([
    { what: "a round wave", shapes: { steepness: 1, edge: 0.005, sizeJump: 0.01 } },
    {
      what: "half waves of uneven size",
      shapes: { steepness: 1.35, crest: 0.18, edge: 0.1, sizeJump: 0.35 },
    },
    { what: "half waves of even size", shapes: { steepness: 1.35, crest: 0.18, edge: 0.1 } },
    {
      what: "fast strokes that differ in size, shape and length at once",
      intervalRatio: 1.2,
      shapes: { rest: 0.28, steepness: 2.4, crest: 0.18, edge: 0.07, sizeJump: 0.16 },
    },
    {
      what: "overtones in strokes of wild size",
      shapes: { steepness: 1.1, crest: 0.18, edge: 0.26, sizeJump: 0.6 },
    },
    {
      what: "an edge that chance put into a few unlike pulses",
      shapes: { count: 3, rest: 0.3, steepness: 1.15, crest: 0.2, edge: 0.21, sizeJump: 0.1 },
    },
    {
      what: "a slow rise with few overtones and uneven sizes",
      intervalRatio: 1.4,
      shapes: { rest: 0.15, steepness: 1.3, crest: 0.2, edge: 0.17, sizeJump: 0.3 },
    },
    {
      what: "even sizes of unlike shape and length",
      intervalRatio: 1.35,
      shapes: { rest: 0.3, steepness: 1.3, crest: 0.2, edge: 0.16 },
    },
    {
      what: "a rise that takes a quarter of its interval, with some overtones",
      shapes: { steepness: 1.6, crest: 0.21, edge: 0.17, sizeJump: 0.1 },
    },
    { what: "evidence that is missing", shapes: { edge: Number.NaN, steepness: Number.NaN } },
  ])("$what", ({ what: _, ...change }) => {
    expect(fine(change)).toBe(false);
  });
});
