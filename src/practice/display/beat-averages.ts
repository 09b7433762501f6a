/** The last beats, and what a bedside device makes of them. */
import { displayConstants as c } from "./constants.js";

/** Intervals needed before a number is shown. */
const fewest = 5;

export class BeatAverages {
  /** Over the beats kept: median interval, s; median rise, %; mean perfusion index, %; mean R. */
  interval = 0;
  rise = 0;
  index = 0;
  ratio = 0;
  /** Whether the beats are many, even and smooth enough for numbers to be shown. */
  earned = false;
  private count = 0;
  private next = 0;
  private readonly size: number;
  private readonly intervals: Float64Array;
  private readonly rises: Float64Array;
  private readonly indices: Float64Array;
  private readonly ratios: Float64Array;
  private readonly roughnesses: Float64Array;
  private readonly sorted: Float64Array;

  /** @param beats how many are averaged */
  constructor(beats: number) {
    this.size = beats;
    this.intervals = new Float64Array(beats);
    this.rises = new Float64Array(beats);
    this.indices = new Float64Array(beats);
    this.ratios = new Float64Array(beats);
    this.roughnesses = new Float64Array(beats);
    this.sorted = new Float64Array(beats);
  }

  /** @param interval s @param rise % @param index perfusion index, % @param ratio R @param roughness as picked */
  add(interval: number, rise: number, index: number, ratio: number, roughness: number): void {
    if (interval > c.longestInterval.value) {
      this.clear();
      this.rise = rise;
      return;
    }
    const { next } = this;
    this.intervals[next] = interval;
    this.rises[next] = rise;
    this.indices[next] = index;
    this.ratios[next] = ratio;
    this.roughnesses[next] = roughness;
    this.next = next + 1 === this.size ? 0 : next + 1;
    if (this.count < this.size) this.count++;
    this.interval = this.median(this.intervals, 0);
    this.rise = this.median(this.rises, 0);
    this.index = this.mean(this.indices);
    this.ratio = this.mean(this.ratios);
    const enough = this.count >= Math.min(fewest, this.size);
    const even = this.median(this.intervals, this.interval) < c.evenness.value * this.interval;
    const like = rise > c.likeness.value * this.rise && interval < c.lateness.value * this.interval;
    this.earned = enough && even && like && this.median(this.roughnesses, 0) < c.roughness.value;
  }

  /** Forgets the beats, not how they came. */
  clear(): void {
    this.count = 0;
    this.next = 0;
    this.earned = false;
  }

  private mean(values: Float64Array): number {
    let sum = 0;
    for (let n = 0; n < this.count; n++) sum += values[n]!;
    return sum / this.count;
  }

  /** Median distance from `from`. */
  private median(values: Float64Array, from: number): number {
    const { sorted, count } = this;
    for (let n = 0; n < count; n++) {
      const value = Math.abs(values[n]! - from);
      let at = n;
      for (; at > 0 && sorted[at - 1]! > value; at--) sorted[at] = sorted[at - 1]!;
      sorted[at] = value;
    }
    const half = count >> 1;
    return count % 2 === 1 ? sorted[half]! : 0.5 * (sorted[half - 1]! + sorted[half]!);
  }
}
