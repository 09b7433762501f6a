/** Bits from bytes, most significant first. Past the end they are zeros and `overrun` tells. */
export interface BitReader {
  /** Bits used so far, from the start of the bytes. */
  readonly at: number;
  readonly overrun: boolean;
  /** The next `count` bits, 0 to 32, as a number from 0. */
  take(count: number): number;
  /** The same as two's complement. */
  takeSigned(count: number): number;
  /** Zeros before the next one; the one is used up too. */
  unary(): number;
  skipToByte(): void;
}

/** @param from first byte */
export function createBitReader(bytes: Uint8Array, from: number): BitReader {
  let at = from * 8;
  const end = bytes.length * 8;
  const byte = (n: number) => bytes[n] ?? 0;
  /** 32 bits from `at` on, of which at least the first 25 are right. */
  const window = () => {
    const n = at >> 3;
    return ((byte(n) << 24) | (byte(n + 1) << 16) | (byte(n + 2) << 8) | byte(n + 3)) << (at & 7);
  };
  const take = (count: number): number => {
    if (count === 0) return 0;
    if (count > 24) {
      const high = take(count - 16);
      return high * 65_536 + take(16);
    }
    const value = window() >>> (32 - count);
    at += count;
    return value;
  };
  return {
    get at() {
      return at;
    },
    get overrun() {
      return at > end;
    },
    take,
    takeSigned(count) {
      const value = take(count);
      return value >= 2 ** (count - 1) ? value - 2 ** count : value;
    },
    unary() {
      let zeros = 0;
      while (at < end) {
        const right = 32 - (at & 7);
        const run = Math.clz32(window());
        if (run < right) {
          zeros += run;
          at += run + 1;
          return zeros;
        }
        zeros += right;
        at += right;
      }
      at = end + 1;
      return zeros;
    },
    skipToByte() {
      at = (at + 7) & ~7;
    },
  };
}
