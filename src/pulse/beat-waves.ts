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
  let rising = true;
  let started = false;
  let high = 0;
  let highAt = 0;
  let low = 0;
  let lowAt = 0;
  let steep = 0;

  function end(cutter: WaveCutter): void {
    cutter.top = highAt;
    cutter.bottom = lowAt;
    cutter.rise = steep;
    cutter.event = "wave";
  }

  return {
    trace,
    taken: 0,
    runStart: 0,
    turn: 0,
    event: "none",
    top: 0,
    bottom: 0,
    rise: 0,
    scan(values, from, to) {
      const x = trace;
      const turn = this.turn;
      let n = this.taken;
      let i = from;
      let up = rising;
      let hi = high;
      let hiAt = highAt;
      let lo = low;
      let loAt = lowAt;
      let most = steep;
      this.event = "none";
      for (; i < to; i++, n++) {
        const v = values[i]!;
        x[n & MASK] = v;
        if (v !== v) {
          n++;
          i++;
          this.event = "missing";
          started = false;
          break;
        }
        if (!started) {
          started = true;
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
          const gain = v - x[(then < first ? first : then) & MASK]!;
          if (gain > most) most = gain;
          if (v > hi) {
            hi = v;
            hiAt = n;
          } else if (v < hi - turn) {
            up = false;
            const isWave = most > 0;
            highAt = hiAt;
            lowAt = loAt;
            steep = most;
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
          most = Math.max(0, v - x[(then < first ? first : then) & MASK]!);
        }
      }
      this.taken = n;
      rising = up;
      high = hi;
      highAt = hiAt;
      low = lo;
      lowAt = loAt;
      steep = most;
      return i;
    },
    finish() {
      if (!rising || !(steep > 0)) return false;
      end(this);
      rising = false;
      steep = 0;
      return true;
    },
  };
}
