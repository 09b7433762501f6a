/** The same person twice: once in the light there is, once in so much light that hardly any noise is left. */

import type { Beat } from "../../../src/model/index.js";
import { Body, type TruthBeat } from "../../../src/practice/index.js";
import { overhear } from "./overheard.js";

const rate = 125;
const from = 5;
const until = 55;
const seconds = 60;
const brightest = 500;

export interface Heard {
  readonly found: readonly Beat[];
  /** Beats that came, from 5 to 55 s. */
  readonly truth: readonly TruthBeat[];
  /** Cramér–Rao bound of one beat's time, s: noise over the root of the summed squared slopes of a beat. */
  readonly bound: number;
}

export function listen(seed: number, photocurrent: number): Heard {
  const at = { side: "left", digit: "index finger" } as const;
  const plan = (current: number) => ({
    seed,
    rate,
    sites: [{ at, bits: 24 }],
    turns: [
      { at: 0, turn: "rate", to: 60 + (seed % 7) * 8 },
      { at: 0, site: 0, turn: "drift", to: 0 },
      { at: 0, site: 0, turn: "mains", to: 0 },
      { at: 0, site: 0, turn: "photocurrent", to: current },
    ],
  });
  const clear = Float64Array.from(new Body(plan(brightest)).advance(seconds * rate).sites[0]!.infrared);
  const found: Beat[] = [];
  const truth: TruthBeat[] = [];
  let noise = 0;
  const inside = (time: number | null) => time !== null && time >= from && time < until;
  const { advance, end } = overhear(plan(photocurrent), [
    { beat: (beat) => inside(beat.peak) && found.push(beat) },
  ]);
  advance(seconds * rate, ([site]) => {
    truth.push(...site!.beats.filter(({ peak }) => inside(peak)));
    for (const [n, value] of site!.infrared.entries()) noise += (value - clear[n]!) ** 2;
  });
  end();
  const variance = noise / clear.length;
  let slopes = 0;
  for (let n = from * rate; n < until * rate; n++)
    slopes += (((clear[n + 1]! - clear[n - 1]!) * rate) / 2) ** 2;
  return { found, truth, bound: Math.sqrt(variance / (slopes / truth.length)) };
}
