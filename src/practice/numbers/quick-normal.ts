/**
 * Normal numbers for noise that is drawn at every sample: one table look-up for 98 draws in 100, true tails.
 * @see G. Marsaglia and W. W. Tsang, "The ziggurat method for generating random variables", J. Stat. Softw. 5(8), 2000;
 *   J. A. Doornik, "An improved ziggurat method to generate normal random samples", 2005 (128 strips; its R and V)
 */
import { exp, log } from "./exponential.js";
import { perWord, RandomWords } from "./random-words.js";

const strips = 128;
/** Where the tail begins, and the area of each strip. */
const tail = 3.442619855899;
const area = 9.91256303526217e-3;

/** Right edge of each strip, and the share of it that lies wholly under the curve. */
const edges = makeEdges();
const inner = Float64Array.from({ length: strips }, (_, i) => edges[i + 1]! / edges[i]!);

function makeEdges(): Float64Array {
  const x = new Float64Array(strips + 1);
  let height = exp(-0.5 * tail * tail);
  x[0] = area / height;
  x[1] = tail;
  for (let i = 2; i < strips; i++) {
    x[i] = Math.sqrt(-2 * log(area / x[i - 1]! + height));
    height = exp(-0.5 * x[i]! * x[i]!);
  }
  return x;
}

export class QuickNormal {
  /** The number drawn last, standard normal. */
  value = 0;
  private readonly words: RandomWords;

  /** Seed and stream as for `createRandom`. @throws {RangeError} */
  constructor(seed: number, stream: number) {
    this.words = new RandomWords(seed, stream);
  }

  /** Draws anew into `value`. Allocates nothing. */
  next(): void {
    for (;;) {
      const i = this.words.next() & (strips - 1);
      const u = this.words.next() * perWord;
      this.value = u * edges[i]!;
      if (Math.abs(u) < inner[i]!) return;
      if (i === 0) {
        this.drawTail(u < 0);
        return;
      }
      if (this.isUnder(i)) return;
    }
  }

  private drawTail(negative: boolean): void {
    for (;;) {
      const x = -log(this.open()) / tail;
      const y = -log(this.open());
      if (2 * y < x * x) continue;
      this.value = negative ? -tail - x : tail + x;
      return;
    }
  }

  /** Whether a point of strip `i` at `value`, its height drawn here, lies under the curve. */
  private isUnder(i: number): boolean {
    const square = this.value * this.value;
    const low = exp(-0.5 * (edges[i]! * edges[i]! - square));
    const high = exp(-0.5 * (edges[i + 1]! * edges[i + 1]! - square));
    return high + this.open() * (low - high) < 1;
  }

  /** Uniform, neither 0 nor 1. */
  private open(): number {
    return ((this.words.next() >>> 0) + 0.5) / 4294967296;
  }
}
