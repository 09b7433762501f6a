import { describe, expect, test } from "vitest";
import { hertz } from "../model/units.js";
import { createIntervalVotes } from "./beat-interval.js";

describe("interval of repeating waves", () => {
  // The expected values are the construction of the input. Ten minutes: several times longer than votes take to
  // be brought back into range.
  test.each([
    { between: 50, minutes: 10 },
    { between: 25, minutes: 10 },
    { between: 100, minutes: 10 },
  ])(
    "a wave every $between samples is found and trusted, for $minutes minutes on end",
    ({ between, minutes }) => {
      const votes = createIntervalVotes(hertz(62.5), 0.6);
      const waves = (minutes * 60 * 62.5) / between;
      for (let k = 0; k < waves; k++) {
        votes.add(k * between, 1);
        if (k < 8) continue;
        // Votes lie 4 % apart and are joined by a parabola.
        expect(Math.abs(votes.interval() / between - 1)).toBeLessThan(0.01);
        expect(votes.trust()).toBeGreaterThan(0.8);
      }
    },
  );

  test("a new rhythm replaces the old one within half a minute", () => {
    const votes = createIntervalVotes(hertz(62.5), 0.6);
    for (let k = 0; k < 200; k++) votes.add(60 * k, 1);
    for (let k = 0; k < 47; k++) votes.add(60 * 199 + 40 * (k + 1), 1);
    expect(Math.abs(votes.interval() / 40 - 1)).toBeLessThan(0.01);
  });

  test("one wave alone, or after a reset, is no rhythm", () => {
    const votes = createIntervalVotes(hertz(62.5), 0.6);
    for (let k = 0; k < 20; k++) votes.add(50 * k, 1);
    votes.reset();
    votes.add(2000, 1);
    expect(votes.trust()).toBe(0);
  });
});
