/**
 * The same generator as `createRandom`, handing out its raw words: whole numbers pass between functions without
 * being boxed, which counts where noise is drawn at every sample.
 * @see D. Blackman and S. Vigna, "Scrambled linear pseudorandom number generators", ACM TOMS 47, 2021 (xoshiro128**)
 */
import { createRandom } from "./random.js";

export class RandomWords {
  private a: number;
  private b: number;
  private c: number;
  private d: number;

  /** Seed and stream as for `createRandom`, whose words these are. @throws {RangeError} */
  constructor(seed: number, stream: number) {
    const state = createRandom(seed, stream).state();
    this.a = state[0] | 0;
    this.b = state[1] | 0;
    this.c = state[2] | 0;
    this.d = state[3] | 0;
  }

  /** 32 random bits as a whole number from −2^31 to 2^31 − 1. */
  next(): number {
    const x = Math.imul(this.b, 5);
    const out = Math.imul((x << 7) | (x >>> 25), 9);
    const t = this.b << 9;
    this.c ^= this.a;
    this.d ^= this.b;
    this.b ^= this.c;
    this.a ^= this.d;
    this.c ^= t;
    this.d = (this.d << 11) | (this.d >>> 21);
    return out;
  }
}

/** One unit of a word: word × this lies within −1 to 1. */
export const perWord = 1 / 2147483648;
