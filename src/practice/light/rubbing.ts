/** Rubbing to and fro: nearly periodic, so that it is easily taken for a pulse. */
import { sin } from "../numbers/circle.js";
import type { Random } from "../numbers/random.js";

/** No hand keeps time exactly: each stroke's length and size vary by up to this share. Working default from memory. */
const unsteady = 0.08;
const uneven = 0.15;
/** Second harmonic: the way out is quicker than the way back. */
const skew = 0.3;

export class Rubbing {
  /** The value now: about ±1. */
  value = 0;
  private phase = 0;
  private pace = 1;
  private size = 1;
  private readonly random: Random;
  private readonly step: number;

  /** @param rate samples per second */
  constructor(rate: number, random: Random) {
    this.random = random;
    this.phase = random.uniform();
    this.step = 1 / (60 * rate);
  }

  /** One sample on. @param perMinute how often it goes to and fro @param felt whether the value is wanted */
  next(perMinute: number, felt: boolean): void {
    this.phase += perMinute * this.pace * this.step;
    if (this.phase >= 1) {
      this.phase -= 1;
      this.pace = 1 + unsteady * (2 * this.random.uniform() - 1);
      this.size = 1 + uneven * (2 * this.random.uniform() - 1);
    }
    if (!felt) return;
    const angle = 2 * Math.PI * this.phase;
    // Both sines are 0 where the stroke's size changes, so there is no jump.
    this.value = this.size * (sin(angle) + skew * sin(2 * angle));
  }
}
