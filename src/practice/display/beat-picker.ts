/**
 * Picks beats as a simple bedside device does: a rise higher than a share of the usual rise, once it has turned
 * down. It knows no shapes, so whatever rises often enough is a beat to it.
 */
import { exp } from "../numbers/exponential.js";
import { displayConstants as c } from "./constants.js";

/** A rise is over when it has fallen by this share of the threshold: a slow swell does not hide it. */
const turnedDown = 0.6;

export class BeatPicker {
  /** Whether the sample last taken completed a beat. */
  beat = false;
  /** Of that beat: its rise in %, and seconds between its peak and the peak before. */
  rise = 0;
  interval = 0;
  /** Way up and down of the trace since the beat before, over the rise: 2 for a smooth pulse, more for noise. */
  roughness = 0;
  /** The rise that is now taken for a beat, %. */
  threshold: number = c.leastPulse.value;
  private last = 0;
  private way = 0;
  private low = 0;
  private high = 0;
  private rising = false;
  private sinceHigh = 0;
  private sincePeak = Number.POSITIVE_INFINITY;
  private overdue = Number.POSITIVE_INFINITY;
  private readonly dt: number;
  private readonly decay: number;

  /** @param rate samples per second */
  constructor(rate: number) {
    this.dt = 1 / rate;
    this.decay = exp(-1 / (rate * c.thresholdDecay.value));
  }

  /** @param pulse pulsatile part, % */
  next(pulse: number): void {
    this.beat = false;
    this.way += Math.abs(pulse - this.last);
    this.last = pulse;
    this.sincePeak += this.dt;
    this.sinceHigh += this.dt;
    if (this.sincePeak > this.overdue) {
      this.threshold = Math.max(c.leastPulse.value, this.threshold * this.decay);
    }
    if (this.rising) this.climb(pulse);
    else if (pulse < this.low) this.low = pulse;
    else if (pulse - this.low > this.threshold) {
      this.rising = true;
      this.high = pulse;
      this.sinceHigh = 0;
    }
  }

  /** What a usual beat is: sets the threshold of the next. @param rise % @param interval s */
  expect(rise: number, interval: number): void {
    this.threshold = Math.max(c.leastPulse.value, c.beatThreshold.value * rise);
    this.overdue = 1.5 * interval;
  }

  /** Forgets what came before. */
  reset(): void {
    this.last = 0;
    this.way = 0;
    this.low = 0;
    this.high = 0;
    this.rising = false;
    this.threshold = c.leastPulse.value;
    this.overdue = Number.POSITIVE_INFINITY;
    this.sincePeak = Number.POSITIVE_INFINITY;
  }

  private climb(pulse: number): void {
    if (pulse > this.high) {
      this.high = pulse;
      this.sinceHigh = 0;
      return;
    }
    if (this.high - pulse < turnedDown * this.threshold) return;
    const interval = this.sincePeak - this.sinceHigh;
    if (interval >= c.shortestInterval.value) {
      this.beat = true;
      this.rise = this.high - this.low;
      this.interval = interval;
      this.roughness = this.way / this.rise;
      this.way = 0;
      this.sincePeak = this.sinceHigh;
    }
    this.rising = false;
    this.low = pulse;
  }
}
