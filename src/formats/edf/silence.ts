/** Fills the time between records with missing samples. */
import { type Block, type Channel, sampleIndex } from "../../model/index.js";

/** Missing samples per block. */
const fillLength = 65_536;

/**
 * NaN for all chosen channels up to a time, side by side.
 *
 * @param until seconds; each channel goes on to the sample nearest to it
 * @param next  next sample of each channel of the recording; moved on
 */
export function* silence(
  channels: readonly Channel[],
  chosen: readonly number[],
  next: number[],
  until: number,
): Generator<Block> {
  const rateOf = (channel: number) => channels[channel]?.rate ?? 1;
  for (let more = true; more; ) {
    more = false;
    const limit = chosen.reduce(
      (least, c) => Math.min(least, ((next[c] ?? 0) + fillLength) / rateOf(c)),
      until,
    );
    for (const c of chosen) {
      const first = next[c] ?? 0;
      const count = Math.min(fillLength, Math.round(limit * rateOf(c)) - first);
      if (count <= 0) continue;
      more ||= limit < until;
      next[c] = first + count;
      yield { channel: c, first: sampleIndex(first), values: new Float64Array(count).fill(Number.NaN) };
    }
  }
}
