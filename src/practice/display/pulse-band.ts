/** Level and pulsatile part of one colour, sample by sample. */
import { exp } from "../numbers/exponential.js";

/** Time constants, s: the level; a high-pass of 0.4 Hz against breathing; two low-passes of 10 Hz against noise. */
const levelTime = 2;
const baselineTime = 0.4;
const smoothTime = 0.016;
/** The level is never taken to be smaller than this share of full scale. */
const leastLevel = 0.01;

export class PulseBand {
  /** Slow level, share of full scale. */
  level = 0;
  /** Pulsatile part in % of the level, rising in systole. */
  pulse = 0;
  private baseline = 0;
  private smooth = 0;
  private primed = false;
  private readonly levelShare: number;
  private readonly baselineShare: number;
  private readonly smoothShare: number;

  /** @param rate samples per second */
  constructor(rate: number) {
    const share = (time: number) => 1 - exp(-1 / (rate * time));
    this.levelShare = share(levelTime);
    this.baselineShare = share(baselineTime);
    this.smoothShare = share(smoothTime);
  }

  /** Forgets what came before. */
  reset(): void {
    this.primed = false;
    this.pulse = 0;
    this.smooth = 0;
    this.baseline = 0;
  }

  /** @param light share of full scale; the first is taken as the level that has always been there */
  next(light: number): void {
    if (!this.primed) {
      this.level = light;
      this.primed = true;
    }
    this.level += this.levelShare * (light - this.level);
    const share = (100 * (this.level - light)) / Math.max(this.level, leastLevel);
    this.baseline += this.baselineShare * (share - this.baseline);
    this.smooth += this.smoothShare * (share - this.baseline - this.smooth);
    this.pulse += this.smoothShare * (this.smooth - this.pulse);
  }
}
