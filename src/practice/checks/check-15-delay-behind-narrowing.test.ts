import { expect, test } from "vitest";
import { medianOf } from "../testing/limb-beats.js";
import { settledBeats } from "../testing/settled.js";

// Erts, Spigulis, Kukulis and Ozols, Physiol Meas 2005;26:865, on legs: sound limbs up to 14 ms between sides, threshold 23 ± 9 ms, narrowed 20 to 80 ms.
test("check 15, prediction: at a pressure index of 0.9 the pulse comes 14 to 32 ms later, at 0.6 to 0.8 20 to 80 ms", () => {
  const open = settledBeats();
  const points = [0.84, 0.86, 0.88, 0.91, 0.92, 0.94].map((narrowing) => {
    const beats = settledBeats({ site: { narrowing } });
    return {
      index: medianOf(beats, "distal") / medianOf(open, "distal"),
      later: 1000 * (medianOf(beats, "foot") - medianOf(open, "foot")),
    };
  });
  const after = points.findIndex((point) => point.index < 0.9);
  const a = points[after - 1] as { index: number; later: number };
  const b = points[after] as { index: number; later: number };
  const later = a.later + ((a.index - 0.9) / (a.index - b.index)) * (b.later - a.later);
  expect(later).toBeGreaterThan(14);
  expect(later).toBeLessThan(32);
  const worse = points.filter((point) => point.index > 0.6 && point.index < 0.8);
  expect(worse.length).toBeGreaterThan(0);
  for (const point of worse) {
    expect(point.later).toBeGreaterThan(20);
    expect(point.later).toBeLessThan(80);
  }
});
