/**
 * Random movement within a band of frequencies: uniform numbers through two equal band-pass sections, so that
 * it comes and goes as movement does. Standard deviation 1, never beyond ±`bound`.
 */
import { cos, sin } from "../numbers/circle.js";
import { perWord, RandomWords } from "../numbers/random-words.js";

/** A movement of more than four standard deviations is cut. */
const bound = 4;
/** The highest frequency kept, as a share of the sample rate. */
const highestShare = 0.42;
/** Numbers spread evenly over ±1 have this to be multiplied by for a standard deviation of 1. */
const evenSpread = Math.sqrt(3);

export class BandNoise {
  /** The value now. */
  value = 0;
  private x1 = 0;
  private x2 = 0;
  private y1 = 0;
  private y2 = 0;
  private z1 = 0;
  private z2 = 0;
  private b = 0;
  private a1 = 0;
  private a2 = 0;
  private scale = 1;
  private readonly words: RandomWords;

  /**
   * @param low  lower and
   * @param high upper edge of the band, Hz, where it has fallen to half its height; 0 < low < high, cut to what
   *   the rate can carry
   * @param rate samples per second
   * @see R. Bristow-Johnson, "Audio EQ Cookbook", W3C Group Note, 2021, band-pass with 0 dB peak gain
   */
  constructor(low: number, high: number, rate: number, seed: number, stream: number) {
    this.words = new RandomWords(seed, stream);
    const top = Math.min(high, highestShare * rate);
    const bottom = Math.min(low, 0.5 * top);
    const centre = Math.sqrt(bottom * top);
    const angle = (2 * Math.PI * centre) / rate;
    const alpha = (sin(angle) * (top - bottom)) / (2 * centre);
    this.b = alpha / (1 + alpha);
    this.a1 = (-2 * cos(angle)) / (1 + alpha);
    this.a2 = (1 - alpha) / (1 + alpha);
    const settled = Math.ceil((3 * rate) / bottom);
    let energy = 0;
    for (let n = 0; n < settled; n++) {
      this.filter(n === 0 ? 1 : 0);
      energy += this.z1 * this.z1;
    }
    this.x1 = this.x2 = this.y1 = this.y2 = this.z1 = this.z2 = 0;
    this.scale = (evenSpread * perWord) / Math.sqrt(energy);
    for (let n = 0; n < settled; n++) this.next();
  }

  /** One sample on. */
  next(): void {
    this.filter(this.words.next() * this.scale);
    const y = this.z1;
    this.value = y > bound ? bound : Math.max(y, -bound);
  }

  private filter(x: number): void {
    const y = this.b * (x - this.x2) - this.a1 * this.y1 - this.a2 * this.y2;
    const z = this.b * (y - this.y2) - this.a1 * this.z1 - this.a2 * this.z2;
    this.x2 = this.x1;
    this.x1 = x;
    this.y2 = this.y1;
    this.y1 = y;
    this.z2 = this.z1;
    this.z1 = z;
  }
}
