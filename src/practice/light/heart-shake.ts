/**
 * The body shakes with each ejection, and a probe with it: a damped burst of 4 to 7 Hz that begins 20 to 80 ms
 * after ejection began. It needs no blood in the limb, so it stays under a full occlusion and looks like a pulse.
 * Frequency and delay belong to the person; the size varies from beat to beat. All from memory, no source.
 */
import { cos, sin } from "../numbers/circle.js";
import { exp } from "../numbers/exponential.js";
import type { Random } from "../numbers/random.js";
import { lightConstants } from "./constants.js";

const lowestFrequency = 4;
const highestFrequency = 7;
const shortestDelay = 0.02;
const longestDelay = 0.08;
/** Beat to beat, the size varies by up to this share. */
const uneven = 0.2;

export class HeartShake {
  /** The value now: about ±1 at the first swing of a beat alone. */
  value = 0;
  /** Of this person: Hz and s. */
  readonly frequency: number;
  readonly delay: number;
  private along = 0;
  private across = 0;
  private readonly turnCos: number;
  private readonly turnSin: number;
  private readonly peak: number;
  private waiting = false;
  private before = Number.POSITIVE_INFINITY;
  private readonly random: Random;

  /** @param rate samples per second */
  constructor(rate: number, random: Random) {
    this.random = random;
    this.frequency = lowestFrequency + (highestFrequency - lowestFrequency) * random.uniform();
    this.delay = shortestDelay + (longestDelay - shortestDelay) * random.uniform();
    const angle = (2 * Math.PI * this.frequency) / rate;
    const decay = exp(-1 / (lightConstants.shakeDecay.value * rate));
    this.turnCos = decay * cos(angle);
    this.turnSin = decay * sin(angle);
    this.peak = this.firstSwing();
  }

  /** One sample on. @param sinceEjection seconds since the last ejection began; anything large before the first */
  next(sinceEjection: number): void {
    const { along, across } = this;
    this.along = along * this.turnCos - across * this.turnSin;
    this.across = along * this.turnSin + across * this.turnCos;
    if (sinceEjection < this.before) this.waiting = true;
    this.before = sinceEjection;
    if (this.waiting && sinceEjection >= this.delay && sinceEjection < 1) {
      this.waiting = false;
      this.kick(sinceEjection - this.delay, (1 + uneven * (2 * this.random.uniform() - 1)) / this.peak);
    }
    this.value = this.across;
  }

  /** Adds a burst that began `ago` seconds before this sample. */
  private kick(ago: number, size: number): void {
    const angle = 2 * Math.PI * this.frequency * ago;
    const left = size * exp(-ago / lightConstants.shakeDecay.value);
    this.along += left * cos(angle);
    this.across += left * sin(angle);
  }

  /** Height of the first swing of a burst of size 1. */
  private firstSwing(): number {
    let peak = 0;
    for (let n = 0; n <= 200; n++) {
      const t = n / 200 / (2 * this.frequency);
      const y = exp(-t / lightConstants.shakeDecay.value) * sin(2 * Math.PI * this.frequency * t);
      if (y > peak) peak = y;
    }
    return peak;
  }
}
