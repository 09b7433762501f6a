/**
 * Cuts the inner trace into waves: a rise to a top, ended by a fall. Every beat is one of these;
 * which, is decided elsewhere.
 */

/** Inner samples the trace remembers; a power of two, over 10 s at the highest inner rate. */
export const TRACE = 1024;
const MASK = TRACE - 1;

export type WaveEvent = "none" | "wave" | "missing";

export interface WaveCutter {
  /** The last `TRACE` inner samples, sample n at n modulo `TRACE`. */
  readonly trace: Float64Array;
  /** Inner samples taken so far. */
  taken: number;
  /** First sample of the present run of samples. */
  runStart: number;
  /** Fall or rise that turns the trace, channel units. */
  turn: number;
  /** What stopped the last `scan`. */
  event: WaveEvent;
  /** Of the wave just ended: inner sample of its top, of the lowest point before, and the greatest rise within the rise time. */
  top: number;
  bottom: number;
  rise: number;
  /** Takes samples until a wave ends, one is missing, or `to`; returns the position of the first not taken. */
  scan(values: Float64Array, from: number, to: number): number;
  /** The rise in progress becomes a wave if its top is passed; for the end of a run. Returns whether it did. */
  finish(): boolean;
}

/** @param back rise time in inner samples, at least 1 */
export function createWaveCutter(back: number): WaveCutter {
  const trace = new Float64Array(TRACE);
  // Fields of one object: a captured variable would be a new number on the heap at each change.
  const state = { rising: true, started: false, high: 0.5, highAt: 0, low: 0.5, lowAt: 0, steep: 0.5 };
  state.steep = 0;

  function end(cutter: WaveCutter): void {
    cutter.top = state.highAt;
    cutter.bottom = state.lowAt;
    cutter.rise = state.steep;
    cutter.event = "wave";
  }

  return {
    trace,
    taken: 0,
    runStart: 0,
    turn: 0.5,
    event: "none",
    top: 0,
    bottom: 0,
    rise: 0.5,
    scan(values, from, to) {
      const x = trace;
      const turn = this.turn;
      let n = this.taken;
      let i = from;
      let on = state.started;
      let up = state.rising;
      let hi = state.high;
      let hiAt = state.highAt;
      let lo = state.low;
      let loAt = state.lowAt;
      let most = state.steep;
      this.event = "none";
      for (; i < to; i++, n++) {
        const v = values[i]!;
        x[n & MASK] = v;
        if (Number.isNaN(v)) {
          n++;
          i++;
          this.event = "missing";
          on = false;
          break;
        }
        if (!on) {
          on = true;
          this.runStart = n;
          up = true;
          hi = v;
          hiAt = n;
          lo = v;
          loAt = n;
          most = 0;
        }
        if (up) {
          const first = this.runStart;
          const then = n - back;
          const gain = v - x[Math.max(then, first) & MASK]!;
          if (gain > most) most = gain;
          if (v > hi) {
            hi = v;
            hiAt = n;
          } else if (v < hi - turn) {
            up = false;
            const isWave = most > 0 && hiAt > loAt;
            state.highAt = hiAt;
            state.lowAt = loAt;
            state.steep = most;
            if (isWave) end(this);
            lo = v;
            loAt = n;
            most = 0;
            if (isWave) {
              n++;
              i++;
              break;
            }
          }
        } else if (v < lo) {
          lo = v;
          loAt = n;
        } else if (v > lo + turn) {
          up = true;
          hi = v;
          hiAt = n;
          const first = this.runStart;
          const then = n - back;
          most = Math.max(0, v - x[Math.max(then, first) & MASK]!);
        }
      }
      this.taken = n;
      state.started = on;
      state.rising = up;
      state.high = hi;
      state.highAt = hiAt;
      state.low = lo;
      state.lowAt = loAt;
      state.steep = most;
      return i;
    },
    finish() {
      if (!state.rising || !(state.steep > 0) || state.highAt <= state.lowAt) return false;
      end(this);
      state.rising = false;
      state.steep = 0;
      return true;
    },
  };
}

/** Waves remembered; there are fewer than 50 in a second even of noise. */
const WAVES = 512;

/** The last waves by running number. */
export interface WaveRing {
  put(number: number, wave: { readonly top: number; readonly bottom: number; readonly rise: number }): void;
  top(number: number): number;
  bottom(number: number): number;
  rise(number: number): number;
}

export function createWaveRing(): WaveRing {
  const tops = new Int32Array(WAVES);
  const bottoms = new Int32Array(WAVES);
  const rises = new Float64Array(WAVES);
  return {
    put(number, wave) {
      const at = number % WAVES;
      tops[at] = wave.top;
      bottoms[at] = wave.bottom;
      rises[at] = wave.rise;
    },
    top: (number) => tops[number % WAVES]!,
    bottom: (number) => bottoms[number % WAVES]!,
    rise: (number) => rises[number % WAVES]!,
  };
}
