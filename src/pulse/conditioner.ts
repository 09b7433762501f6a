/**
 * From raw samples at any rate to the inner stream: anti-alias and low-pass in one symmetric
 * kernel, slow level, gaps kept. Knows nothing of beats.
 */
import { DspError } from "../dsp/errors.js";
import { lowPassHalfKernel } from "../dsp/low-pass-kernel.js";
import { filterEvery, filterMidway } from "../dsp/symmetric-fir.js";
import type { Polarity } from "../model/channel.js";
import { type Hertz, hertz, type Seconds } from "../model/units.js";
import type { InnerBlock, InnerClock, InnerSink } from "./inner-stream.js";

/** −6 dB point, Hz; flat to 6 Hz. A pulse holds next to nothing above its eighth harmonic, noise does. */
const CUTOFF = 10;
/** Half length of the kernel, s. With `BETA`, 15 Hz is 30 dB down, mains hum at 50 and 60 Hz over 60 dB. */
const HALF = 0.1;
const BETA = 3.4;
/** The inner rate aimed at. */
const AIM = 62.5;
/** Time constant of the slow level, seconds: a few beats. */
const LEVEL = 2;
/** Inner samples handed on at a time at most. */
const CHUNK = 512;

/** Larger values would not survive the sums; no sensor has them. */
const HUGE = 1e100;

const isUsable = (value: number) => Math.abs(value) < HUGE;

export interface ConditionerOptions {
  /** Raw samples per second, 20 to 5000, whole or not. Figures are given for 25 to 1000. */
  readonly rate: Hertz;
  readonly polarity: Polarity;
  /** Whether anyone reads the slow level; true if left out. Without it the levels of the inner stream are all NaN. */
  readonly level?: boolean;
}

export interface Conditioner extends InnerClock {
  /** How far the inner stream is behind the raw samples, s. */
  readonly delay: Seconds;
  /** Takes raw samples, channel units; anything not finite, or beyond 1e100, is missing. Any cut gives the same inner stream. */
  push(values: Float64Array): void;
  /** Flushes what waits for samples that will not come, then ends the sink. */
  end(): void;
}

/**
 * Turns a channel into its inner stream (see `inner-stream.ts`).
 *
 * The low-pass needs 0.1 s of samples ahead: that is the delay of the inner stream behind the
 * raw one. Times are not shifted. At both ends of a run of samples the trace is continued by its
 * odd mirror image. An inner sample is missing where any raw sample within half an inner step is missing,
 * and through runs too short to mirror (0.2 s): nothing is bridged, each run is filtered by itself.
 *
 * @throws {DspError} `argument-out-of-range`
 */
export function createConditioner(
  { rate, polarity, level = true }: ConditionerOptions,
  sink: InnerSink,
): Conditioner {
  if (!(rate >= 20 && rate <= 5000)) {
    throw new DspError("argument-out-of-range", `${rate} samples/s is outside 20 to 5000`);
  }
  const up = rate < 0.75 * AIM ? 2 : 1;
  const down = up === 2 ? 1 : Math.max(1, Math.round(rate / AIM));
  const innerRate = hertz((rate * up) / down);
  const onSample = lowPassHalfKernel(CUTOFF / rate, HALF * rate, BETA, 0);
  const between = lowPassHalfKernel(CUTOFF / rate, HALF * rate, BETA, 0.5);
  /** Raw samples needed on each side. */
  const reach = up === 2 ? Math.max(onSample.length - 1, between.length) : onSample.length - 1;
  const sign = polarity === "systole-down" ? -1 : 1;
  const fullMemory = LEVEL * innerRate;

  // Raw samples of the current run, `reach` mirrored ones in front of its first.
  const capacity = Math.max(2048, CHUNK * down) + 2 * reach + 2;
  const raw = new Float64Array(capacity);
  let filled = reach;
  let open = false;
  let mirrored = false;
  /** Raw number of `raw[0]`. */
  let origin = -reach;
  /** Raw samples taken so far. */
  let taken = 0;
  let next = 0;
  // Fields that start as fractions, not single variables: the loop over them then allocates nothing.
  const slow = { mean: 0.5, memory: 0.5 };

  const block = {
    first: 0,
    count: 0,
    values: new Float64Array(CHUNK),
    levels: new Float64Array(CHUNK).fill(Number.NaN),
  };

  function flush(): void {
    if (block.count === 0) return;
    sink.take(block as InnerBlock);
    block.first += block.count;
    block.count = 0;
  }

  /** Inner samples before number `until` that were not produced are missing. */
  function missTo(until: number): void {
    for (; next < until; next++) {
      if (block.count === CHUNK) flush();
      block.values[block.count] = Number.NaN;
      block.levels[block.count] = Number.NaN;
      block.count++;
    }
  }

  /** Produces every inner sample centred at or before raw number `last`, from samples that are all in `raw`. */
  function produce(last: number): void {
    const until = Math.floor((last * up) / down + 1e-9) + 1;
    while (next < until) {
      if (block.count === CHUNK) flush();
      const n = Math.min(until - next, CHUNK - block.count);
      const at = block.count;
      if (up === 1) {
        filterEvery(raw, next * down - origin, down, onSample, n, block.values, at);
      } else {
        for (let i = 0; i < n; i++) {
          const p = Math.floor((next + i) / 2) - origin;
          if (((next + i) & 1) === 1) block.values[at + i] = filterMidway(raw, p, between);
          else filterEvery(raw, p, 1, onSample, 1, block.values, at + i);
        }
      }
      if (level) follow(at, n);
      block.count += n;
      next += n;
    }
  }

  /** Follows the slow level through `n` new values of the block. */
  function follow(at: number, n: number): void {
    const { values, levels } = block;
    const rise = 1 / fullMemory;
    let { mean, memory } = slow;
    for (let i = 0; i < n; i++) {
      const plain = sign * values[at + i]!;
      // A plain mean until the memory is full, then an exponential one.
      mean += memory < fullMemory ? (plain - mean) / ++memory : (plain - mean) * rise;
      levels[at + i] = mean;
    }
    slow.mean = mean;
    slow.memory = memory;
  }

  /** First inner sample clear of a missing raw sample just before raw number `from`. */
  function firstAfter(from: number): number {
    return from === 0 ? 0 : Math.floor(((from - 1) * up) / down + 0.5 + 1e-9) + 1;
  }

  /** How many inner samples are centred within the first `count` raw ones. */
  function dueBy(count: number): number {
    return count === 0 ? 0 : Math.floor(((count - 1) * up) / down + 1e-9) + 1;
  }

  function openRun(): void {
    open = true;
    mirrored = false;
    origin = taken - reach;
    filled = reach;
    slow.mean = 0;
    slow.memory = 0;
  }

  /** Mirrors the start of the run once enough of it is there. */
  function mirrorStart(): void {
    const edge = 2 * raw[reach]!;
    for (let k = 1; k <= reach; k++) {
      raw[reach - k] = edge - raw[reach + k]!;
    }
    mirrored = true;
    missTo(firstAfter(origin + reach));
  }

  /** Makes room by dropping samples no later output needs. */
  function slide(): void {
    const keep = Math.min(filled, Math.max(0, Math.floor((next * down) / up) - reach - origin));
    raw.copyWithin(0, keep, filled);
    filled -= keep;
    origin += keep;
  }

  /** Ends the run of samples; `final` when the record ends rather than a sample being missing. */
  function closeRun(final: boolean): void {
    open = false;
    if (!mirrored) return;
    if (filled + reach > capacity) slide();
    const edge = 2 * raw[filled - 1]!;
    for (let k = 1; k <= reach; k++) raw[filled - 1 + k] = edge - raw[filled - 1 - k]!;
    const last = origin + filled - 1;
    if (final) {
      produce(last);
      return;
    }
    const clear = Math.ceil(((last + 1) * up) / down - 0.5 - 1e-9) - 1;
    produce((clear * down) / up);
  }

  /** Copies finite samples of `input` to `raw` up to number `stop`; returns where `raw` is filled to. */
  function copyRun(input: Float64Array, start: number, stop: number): number {
    const x = raw;
    let at = filled;
    for (let i = start; i < stop; i++) {
      const v = sign * input[i]!;
      if (!isUsable(v)) break;
      x[at] = v;
      at++;
    }
    return at;
  }

  return {
    innerRate,
    delay: (reach / rate) as Seconds,
    push(input) {
      const n = input.length;
      let i = 0;
      while (i < n) {
        if (!isUsable(input[i]!)) {
          if (open) closeRun(false);
          taken++;
          i++;
          continue;
        }
        if (!open) openRun();
        if (filled === capacity) slide();
        const at = copyRun(input, i, Math.min(n, i + capacity - filled));
        i += at - filled;
        taken += at - filled;
        filled = at;
        if (!mirrored && filled > 2 * reach) mirrorStart();
        if (mirrored) produce(origin + filled - 1 - reach);
      }
      if (!open) missTo(Math.min(firstAfter(taken), dueBy(taken)));
      flush();
    },
    end() {
      if (open) closeRun(true);
      missTo(dueBy(taken));
      flush();
      sink.end();
    },
  };
}
