/** Single knocks against the probe or the limb: they come by chance, rise fast and die away within 0.1 to 0.4 s. */
import { exp } from "../numbers/exponential.js";
import { createRandom, type Random } from "../numbers/random.js";
import { perWord, RandomWords } from "../numbers/random-words.js";

/** Shortest and longest knock, seconds, from start to a twentieth of its height: working default from memory. */
const shortest = 0.1;
const longest = 0.4;
/** t e^(1−t) has fallen to a twentieth at t = 5.7. */
const timeConstants = 5.7;
/** The least knock, as a share of the greatest. */
const least = 0.3;
/** Knocks that meet do not add beyond this. */
const bound = 1.5;

export class Knocks {
  /** The value now: about ±1 at the top of the greatest knock. */
  value = 0;
  private first = 0;
  private second = 0;
  private decay = 0;
  private readonly random: Random;
  private readonly words: RandomWords;
  private readonly rate: number;

  /** @param rate samples per second */
  constructor(rate: number, seed: number, stream: number, timesStream: number) {
    this.rate = rate;
    this.random = createRandom(seed, stream);
    this.words = new RandomWords(seed, timesStream);
  }

  /** One sample on. @param perMinute how often a knock comes */
  next(perMinute: number): void {
    // Two decays in a row give t e^(−t/τ): a rise and a fall without a corner.
    this.second = this.decay * (this.second + this.first);
    this.first *= this.decay;
    const chance = 0.5 + 0.5 * perWord * this.words.next();
    if (chance * 60 * this.rate < perMinute) this.strike();
    const y = this.second;
    this.value = y > bound ? bound : Math.max(y, -bound);
  }

  private strike(): void {
    const time = (shortest + (longest - shortest) * this.random.uniform()) / timeConstants;
    const size = least + (1 - least) * this.random.uniform();
    const sign = this.random.uniform() < 0.5 ? -1 : 1;
    this.decay = exp(-1 / (time * this.rate));
    this.first += (sign * size * Math.E) / (time * this.rate);
  }
}
