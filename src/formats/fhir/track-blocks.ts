/** Walks tracks side by side and turns their points into blocks. */
import { type Block, sampleIndex } from "../../model/index.js";
import { createPointCursor, type PointCursor } from "./points.js";
import type { Segment, Track } from "./tracks.js";

/** Samples per block. */
const blockLength = 8192;

interface Walker {
  readonly channel: number;
  /** Seconds after the start of the record of the next sample. */
  time(): number;
  done(): boolean;
  block(): Block;
}

/** @param starts seconds after the start of the record, by channel */
export async function* trackBlocks(
  tracks: readonly Track[],
  starts: readonly number[],
  chosen: readonly number[],
): AsyncGenerator<Block> {
  const walkers = chosen.flatMap((channel) => {
    const track = tracks[channel];
    return track === undefined ? [] : [createWalker(track, channel, starts[channel] ?? 0)];
  });
  for (;;) {
    let earliest: Walker | null = null;
    for (const walker of walkers) {
      if (!walker.done() && (earliest === null || walker.time() < earliest.time())) earliest = walker;
    }
    if (earliest === null) return;
    yield earliest.block();
  }
}

function createWalker(track: Track, channel: number, start: number): Walker {
  const { segments, dimension, samples } = track;
  const rate = (segments[0] as Segment).series.sampled.rate;
  let position = 0;
  let number = 0;
  let cursor: PointCursor | null = null;

  const sample = (): number => {
    let segment = segments[number] as Segment;
    if (cursor !== null && position >= segment.first + segment.series.sampled.samples - segment.skip) {
      number += 1;
      cursor = null;
      segment = segments[number] as Segment;
    }
    if (position < segment.first) return Number.NaN;
    const { data, factor, origin, dimensions } = segment.series.sampled;
    if (cursor === null) {
      cursor = createPointCursor(data);
      cursor.pass(segment.skip * dimensions + dimension);
    } else {
      cursor.pass(dimensions - 1);
    }
    return cursor.next() * factor + origin;
  };

  return {
    channel,
    time: () => start + position / rate,
    done: () => position >= samples,
    block() {
      const first = position;
      const values = new Float64Array(Math.min(blockLength, samples - first));
      for (let n = 0; n < values.length; n++, position++) values[n] = sample();
      return { channel, first: sampleIndex(first), values };
    },
  };
}
