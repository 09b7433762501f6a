import { expect, test } from "vitest";
import { medianOf } from "../testing/limb-beats.js";
import { settledBeats } from "../testing/settled.js";

// Allen and Murray, IEE Proc Sci Meas Technol 2000;147:403, 30 people. The feet were fitted, the peaks only for the thumb.
test.each([
  { place: "ear", foot: 133, peak: 397 },
  { place: "thumb", foot: 199, peak: 436 },
  { place: "toe", foot: 301, peak: 515 },
] as const)(
  "check 2, fitted: pulse reaches the $place $foot ± 15 ms after R, its peak $peak ± 60 ms",
  ({ place, foot, peak }) => {
    const beats = settledBeats({ place }, 20);
    expect(Math.abs(1000 * medianOf(beats, "foot") - foot)).toBeLessThan(15);
    expect(Math.abs(1000 * medianOf(beats, "peak") - peak)).toBeLessThan(60);
  },
);
