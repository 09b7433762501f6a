/**
 * What the conditioner hands on: one channel as an even, low-passed series, slow enough to
 * be cheap and fast enough for the pulse wave. Everything after the conditioner reads this.
 */
import type { Hertz } from "../model/units.js";

/**
 * A run of inner samples. Blocks come in order and join without holes; where they are cut
 * carries no meaning. The arrays are reused: copy what must be kept.
 */
export interface InnerBlock {
  /** Number of the first sample of this block, from 0 at the start of the channel. Sample k is k / `innerRate` seconds after the first raw sample. */
  readonly first: number;
  /** How many entries of the arrays are filled. */
  readonly count: number;
  /** Low-passed trace, systole up (turned over where the channel is systole down), channel units; NaN = missing. */
  readonly values: Float64Array;
  /** Slow level of the trace as it came (never turned over), channel units; NaN where the value is missing, or no level was asked for. */
  readonly levels: Float64Array;
}

/** A consumer of inner samples. */
export interface InnerSink {
  take(block: InnerBlock): void;
  /** The channel is over: what is pending is decided now. */
  end(): void;
}

/** The fixed relation of inner samples to time. */
export interface InnerClock {
  /** Inner samples per second; 46 to 94 for raw rates from 25/s on. */
  readonly innerRate: Hertz;
}

/** Hands each block to several consumers, in order. */
export function tee(...sinks: readonly InnerSink[]): InnerSink {
  return {
    take(block) {
      for (const sink of sinks) sink.take(block);
    },
    end() {
      for (const sink of sinks) sink.end();
    },
  };
}
