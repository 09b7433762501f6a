/**
 * A trace thinned for drawing: in each bin only its lowest and highest sample survive, in their
 * order, so that no peak is lost and a day fits on a page. Knows nothing of pulses.
 */

/** Points in time order; a NaN value breaks the line. Times in seconds from the first sample of the record. */
export interface Trace {
  readonly from: number;
  readonly to: number;
  readonly times: Float64Array;
  readonly values: Float64Array;
}

/** What stands at one bin while samples run in; -1 in `order` is an empty bin. */
interface Bins {
  readonly lowTime: Float64Array;
  readonly lowValue: Float64Array;
  readonly highTime: Float64Array;
  readonly highValue: Float64Array;
  /** 1 where a missing sample fell into the bin. */
  readonly broken: Uint8Array;
}

export interface Thinner {
  /** Takes one sample; those outside the span are ignored, NaN breaks the line. Times never run back. */
  next(time: number, value: number): void;
  trace(): Trace;
}

/** Thins the samples from `from` to `to` seconds into `count` bins of equal width. */
export function createThinner(from: number, to: number, count: number): Thinner {
  const column = () => new Float64Array(count).fill(Number.NaN);
  const bins: Bins = {
    lowTime: column(),
    lowValue: column(),
    highTime: column(),
    highValue: column(),
    broken: new Uint8Array(count),
  };
  const perSecond = count / (to - from);
  return {
    next(time, value) {
      if (!(time >= from && time < to)) return;
      const i = Math.min(count - 1, Math.floor((time - from) * perSecond));
      if (Number.isNaN(value)) {
        bins.broken[i] = 1;
        return;
      }
      if (!(value >= (bins.lowValue[i] as number))) {
        bins.lowValue[i] = value;
        bins.lowTime[i] = time;
      }
      if (!(value <= (bins.highValue[i] as number))) {
        bins.highValue[i] = value;
        bins.highTime[i] = time;
      }
    },
    trace: () => ({ from, to, ...joinBins(bins, count) }),
  };
}

/** First, both extremes start as NaN, so the first sample of a bin becomes both. */
function joinBins(bins: Bins, count: number): { times: Float64Array; values: Float64Array } {
  const times: number[] = [];
  const values: number[] = [];
  const push = (time: number, value: number) => {
    times.push(time);
    values.push(value);
  };
  for (let i = 0; i < count; i++) {
    const lowTime = bins.lowTime[i] as number;
    const highTime = bins.highTime[i] as number;
    const low = bins.lowValue[i] as number;
    const high = bins.highValue[i] as number;
    if (bins.broken[i] === 1) push(Number.NaN, Number.NaN);
    if (Number.isNaN(low)) continue;
    if (lowTime <= highTime) push(lowTime, low);
    if (highTime !== lowTime) push(highTime, high);
    if (lowTime > highTime) push(lowTime, low);
  }
  return { times: Float64Array.from(times), values: Float64Array.from(values) };
}

/** The value at share `q` (0 to 1) of the finite values in rising order; `null` if there are none. */
export function quantile(values: ArrayLike<number>, q: number): number | null {
  const sorted = Array.from(values)
    .filter(Number.isFinite)
    .sort((a, b) => a - b);
  if (sorted.length === 0) return null;
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] as number;
}

/**
 * Height of each point above the level its pulses rise from: straight lines between the feet where
 * beats are known, else the lowest value within half a second. Never below 0.
 *
 * @param feet seconds, rising
 */
export function raiseFromLevel(trace: Trace, feet: readonly number[]): Trace {
  const inside = feet.filter((time) => time >= trace.from && time <= trace.to);
  const level = inside.length >= 2 ? levelThroughFeet(trace, inside) : runningLow(trace, 0.5);
  const values = trace.values.map((value, i) => Math.max(0, value - (level[i] as number)));
  return { ...trace, values };
}

function nearestIndex(times: Float64Array, wanted: number): number {
  let best = 0;
  for (let i = 1; i < times.length; i++) {
    if (Math.abs((times[i] as number) - wanted) < Math.abs((times[best] as number) - wanted)) best = i;
  }
  return best;
}

function levelThroughFeet(trace: Trace, feet: readonly number[]): Float64Array {
  const knots = feet.map((time) => ({
    time,
    value: trace.values[nearestIndex(trace.times, time)] as number,
  }));
  const level = new Float64Array(trace.values.length);
  let k = 0;
  for (let i = 0; i < level.length; i++) {
    const time = trace.times[i] as number;
    while (k + 2 < knots.length && time > (knots[k + 1] as { time: number }).time) k++;
    const a = knots[k] as { time: number; value: number };
    const b = knots[k + 1] as { time: number; value: number };
    // Before the first and after the last foot the nearest slope goes on.
    const share = b.time > a.time ? (time - a.time) / (b.time - a.time) : 0;
    level[i] = a.value + share * (b.value - a.value);
  }
  return level;
}

function runningLow(trace: Trace, half: number): Float64Array {
  const level = new Float64Array(trace.values.length);
  let first = 0;
  for (let i = 0; i < level.length; i++) {
    const time = trace.times[i] as number;
    while (first < i && !((trace.times[first] as number) >= time - half)) first++;
    let low = Number.POSITIVE_INFINITY;
    for (let j = first; j < level.length && !((trace.times[j] as number) > time + half); j++) {
      const value = trace.values[j] as number;
      if (value < low) low = value;
    }
    level[i] = low;
  }
  return level;
}
