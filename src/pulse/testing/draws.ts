/** Draws that the makers of noise share. For tests and the accuracy run only. */
import type { Random } from "./noise.js";

/** A sample per call; `time` in seconds. */
export type Source = (time: number) => number;
export type Maker = (rate: number, random: Random) => Source;

export const turn = 2 * Math.PI;
export const between = (random: Random, low: number, high: number) => low + (high - low) * random();
export const ratioBetween = (random: Random, low: number, high: number) => low * (high / low) ** random();
