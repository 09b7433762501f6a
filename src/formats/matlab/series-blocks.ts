/** Walks the chosen series side by side and puts their samples on the grid of the clock. */
import { type Block, type Channel, sampleIndex } from "../../model/index.js";
import { createGrid } from "../even-grid.js";
import type { Series } from "./columns.js";
import { type NumberStream, openNumbers } from "./numbers.js";
import type { Timing } from "./timing.js";

/** Numbers of all chosen series held at once. */
const heldNumbers = 1 << 15;
const waveKinds: ReadonlySet<string> = new Set(["raw-light", "display-pleth", "ecg", "pressure"]);

/** Series that lie interleaved share one stream. */
interface Feed {
  readonly numbers: NumberStream;
  readonly step: number;
  readonly held: Float64Array;
  /** Position among the chosen, and place within a step. */
  readonly members: readonly { readonly chosen: number; readonly place: number }[];
}

export async function* seriesBlocks(
  series: readonly Series[],
  channels: readonly Channel[],
  length: number,
  timing: Timing,
  which: readonly number[],
): AsyncGenerator<Block> {
  if (which.length === 0) return;
  const widest = which.reduce((sum, c) => sum + (series[c]?.step ?? 1), 0);
  const run = Math.max(16, Math.min(4096, Math.floor(heldNumbers / widest)));
  const feeds = await openFeeds(series, which, run);
  const waves = which.map((c) => waveKinds.has(channels[c]?.kind ?? "other"));
  const grid = createGrid(timing.clock, waves, run);
  const row = new Float64Array(which.length);
  let repeat = 0;

  function* cut(): Generator<Block> {
    const first = sampleIndex(grid.first);
    for (const [n, values] of grid.take().entries()) {
      if (values.length > 0) yield { channel: which[n] as number, first, values };
    }
  }

  for (let at = 0; at < length; at += run) {
    const count = Math.min(run, length - at);
    for (const { numbers, step, held } of feeds) await numbers.fill(held.subarray(0, count * step));
    for (let n = 0; n < count; n++) {
      if (timing.repeats[repeat] === at + n) {
        repeat += 1;
        continue;
      }
      for (const { step, held, members } of feeds) {
        for (const { chosen, place } of members) {
          const value = held[n * step + place] as number;
          // An infinite number is no sample.
          row[chosen] = Number.isFinite(value) ? value : Number.NaN;
        }
      }
      grid.row(row);
      while (grid.fill()) yield* cut();
    }
  }
  yield* cut();
}

async function openFeeds(series: readonly Series[], which: readonly number[], run: number): Promise<Feed[]> {
  const feeds: Feed[] = [];
  const shared = new Map<Series["variable"], { chosen: number; place: number }[]>();
  for (const [chosen, c] of which.entries()) {
    const one = series[c];
    if (one === undefined) continue;
    const { variable, step, first } = one;
    const known = step > 1 ? shared.get(variable) : undefined;
    if (known !== undefined) {
      known.push({ chosen, place: first });
      continue;
    }
    const members = [{ chosen, place: step > 1 ? first : 0 }];
    if (step > 1) shared.set(variable, members);
    const numbers = await openNumbers(variable, step > 1 ? 0 : first);
    feeds.push({ numbers, step, held: new Float64Array(run * step), members });
  }
  return feeds;
}
