import { describe, expect, test } from "vitest";
import { QuickNormal } from "./quick-normal.js";
import { createRandom } from "./random.js";
import { RandomWords } from "./random-words.js";

test("raw words are those of the seeded generator: its uniform numbers are made of two each", () => {
  const random = createRandom(5, 3);
  const words = new RandomWords(5, 3);
  for (let n = 0; n < 1000; n++) {
    const high = words.next() >>> 5;
    const low = words.next() >>> 6;
    expect((high * 67108864 + low) / 9007199254740992).toBe(random.uniform());
  }
});

describe("normal numbers by strips", () => {
  const count = 1_000_000;
  const noise = new QuickNormal(11, 0);
  const draws = new Float64Array(count);
  for (let n = 0; n < count; n++) {
    noise.next();
    draws[n] = noise.value;
  }

  // Upper tail of the standard normal law: SciPy 1.17.1, scipy.stats.norm.sf(z).
  test.each([
    [0, 0.5],
    [0.5, 0.3085375387],
    [1, 0.1586552539],
    [2, 0.0227501319],
    [3, 0.001349898],
    [3.5, 0.0002326291],
    [4, 0.00003167124],
  ])("beyond %d lies the share %d, on either side", (z, p) => {
    let above = 0;
    let below = 0;
    for (let n = 0; n < count; n++) {
      if (draws[n]! > z) above++;
      if (draws[n]! < -z) below++;
    }
    // Five standard errors of a count of chance p.
    const bound = 5 * Math.sqrt(p * (1 - p) * count);
    expect(Math.abs(above - p * count)).toBeLessThan(bound);
    expect(Math.abs(below - p * count)).toBeLessThan(bound);
  });

  test("neighbouring draws do not know of each other", () => {
    let sum = 0;
    for (let n = 1; n < count; n++) sum += draws[n]! * draws[n - 1]!;
    expect(Math.abs(sum / count)).toBeLessThan(5 / Math.sqrt(count));
  });
});
