/**
 * The usual rise of a pulse: the median over the waves that tower over their neighbours.
 * It looks at waves, not at accepted beats, so a wrong decision cannot feed itself.
 */

const KEPT = 64;

export interface UsualRise {
  /** A wave at `time` s with its rise; times must not fall. */
  add(time: number, rise: number): void;
  /**
   * Median rise of dominant waves not older than `memory` s before the newest; 0 without waves.
   *
   * @param apart distance in s within which only the greatest wave counts
   */
  level(apart: number, memory: number): number;
  reset(): void;
}

export function createUsualRise(): UsualRise {
  const times = new Float64Array(KEPT);
  const rises = new Float64Array(KEPT);
  const sorted = new Float64Array(KEPT);
  let count = 0;

  function dominant(i: number, first: number, apart: number): boolean {
    const rise = rises[i % KEPT]!;
    const time = times[i % KEPT]!;
    for (let k = i - 1; k >= first && time - times[k % KEPT]! < apart; k--) {
      if (rises[k % KEPT]! >= rise) return false;
    }
    for (let k = i + 1; k < count && times[k % KEPT]! - time < apart; k++) {
      if (rises[k % KEPT]! > rise) return false;
    }
    return true;
  }

  return {
    add(time, rise) {
      times[count % KEPT] = time;
      rises[count % KEPT] = rise;
      count++;
    },
    level(apart, memory) {
      const first = Math.max(0, count - KEPT);
      const newest = times[(count - 1) % KEPT]!;
      let n = 0;
      for (let i = count - 1; i >= first && newest - times[i % KEPT]! <= memory; i--) {
        if (!dominant(i, first, apart)) continue;
        const rise = rises[i % KEPT]!;
        let at = n++;
        while (at > 0 && sorted[at - 1]! > rise) {
          sorted[at] = sorted[at - 1]!;
          at--;
        }
        sorted[at] = rise;
      }
      if (n === 0) return 0;
      return n % 2 === 1 ? sorted[(n - 1) / 2]! : (sorted[n / 2 - 1]! + sorted[n / 2]!) / 2;
    },
    reset() {
      count = 0;
    },
  };
}
