import { describe, expect, test } from "vitest";
import type { Seconds } from "../model/units.js";
import { createLossSpans } from "./loss-spans.js";

const loss = (from: number, back: number | null) => ({
  from: from as Seconds,
  seen: (from + 2) as Seconds,
  back: back as Seconds | null,
  backSeen: back === null ? null : ((back + 1) as Seconds),
});

describe("beats due while the pulse was lost", () => {
  test("run from the last beat to the end of the stretch while it has not come back", () => {
    const spans = createLossSpans();
    spans.usual(0.8);
    spans.take(loss(11, null));
    expect(spans.beatsDue(10, 15)).toBeCloseTo(4 / 0.8, 12);
    expect(spans.beatsDue(15, 20)).toBeCloseTo(5 / 0.8, 12);
    expect(spans.beatsDue(5, 10)).toBe(0);
  });

  test("end with the return, and losses in one stretch add up", () => {
    const spans = createLossSpans();
    spans.usual(1);
    spans.take(loss(1, null));
    spans.take(loss(1, 2.5));
    spans.take(loss(3, null));
    spans.take(loss(3, 4));
    expect(spans.beatsDue(0, 5)).toBeCloseTo(2.5, 12);
  });

  test("are none before a solid stretch told what is usual", () => {
    const spans = createLossSpans();
    spans.take(loss(1, null));
    expect(spans.beatsDue(0, 5)).toBe(0);
  });
});
