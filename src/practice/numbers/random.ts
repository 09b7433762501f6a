/**
 * Seeded randomness on 32-bit integers, the same in every engine.
 * @see D. Blackman and S. Vigna, "Scrambled linear pseudorandom number generators", ACM TOMS 47, 2021 (xoshiro128**)
 */
import { log } from "./exponential.js";

export interface Random {
  /** Uniform on [0, 1), 53 bits. */
  uniform(): number;
  /** Standard normal, with true tails. */
  normal(): number;
  /** Gamma with mean 1 and the given shape (a whole number from 1): the mean of that many exponentials. */
  gamma(shape: number): number;
  /** The four words of state, to save and restore. */
  state(): readonly [number, number, number, number];
}

/**
 * @param seed   a whole number from 0 to 2^32 − 1
 * @param stream a second whole number: streams of one seed are independent, so that one part of a model
 *   can draw more without moving another
 * @throws {RangeError} on anything else
 */
export function createRandom(seed: number, stream = 0): Random {
  for (const word of [seed, stream]) {
    if (!Number.isInteger(word) || word < 0 || word > 0xffffffff) {
      throw new RangeError(`seed ${word} is not a whole number from 0 to 4294967295`);
    }
  }
  const fill = mixer(seed ^ mixer(stream)());
  let a = fill();
  let b = fill();
  let c = fill();
  let d = fill() | 1; // never all zero, the one state that does not move
  let spare = Number.NaN;

  function word(): number {
    const x = Math.imul(b, 5);
    const out = Math.imul((x << 7) | (x >>> 25), 9) >>> 0;
    const t = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = (d << 11) | (d >>> 21);
    return out;
  }

  function uniform(): number {
    return ((word() >>> 5) * 67108864 + (word() >>> 6)) / 9007199254740992;
  }

  return {
    uniform,
    normal() {
      if (!Number.isNaN(spare)) {
        const out = spare;
        spare = Number.NaN;
        return out;
      }
      for (;;) {
        const x = 2 * uniform() - 1;
        const y = 2 * uniform() - 1;
        const r = x * x + y * y;
        if (r > 0 && r < 1) {
          const scale = Math.sqrt((-2 * log(r)) / r);
          spare = y * scale;
          return x * scale;
        }
      }
    },
    gamma(shape) {
      let sum = 0;
      for (let n = 0; n < shape; n++) sum -= log(1 - uniform());
      return sum / shape;
    },
    state: () => [a, b, c, d],
  };
}

/** Spreads a small seed over 32 bits, one word a call. */
function mixer(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x9e3779b9) | 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return z ^ (z >>> 16);
  };
}
