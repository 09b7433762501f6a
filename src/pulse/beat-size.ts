/**
 * The usual size of a pulse: the median over the waves that tower over their neighbours, weighted
 * by their size, so that a slow heart's few beats outweigh the ripple between them. It looks at
 * waves, not at accepted beats, so a wrong decision cannot feed itself.
 */

const KEPT = 64;
const MASK = KEPT - 1;
/** No wave counts for more than this many times the plain median: artefacts are large. */
const HEAVIEST = 2;

export interface UsualSize {
  /** A wave at inner sample `time` with its size; times must not fall. */
  add(time: number, size: number): void;
  /**
   * Weighted median of dominant waves not older than `memory` inner samples before the newest; 0 without waves.
   *
   * @param apart distance in inner samples within which only the greatest wave counts
   */
  size(apart: number, memory: number): number;
  reset(): void;
}

export function createUsualSize(): UsualSize {
  const times = new Int32Array(KEPT);
  const sizes = new Float64Array(KEPT);
  const sorted = new Float64Array(KEPT);
  let count = 0;

  function dominant(i: number, first: number, apart: number): boolean {
    const size = sizes[i & MASK]!;
    const time = times[i & MASK]!;
    for (let k = i - 1; k >= first && time - times[k & MASK]! < apart; k--) {
      if (sizes[k & MASK]! >= size) return false;
    }
    for (let k = i + 1; k < count && times[k & MASK]! - time < apart; k++) {
      if (sizes[k & MASK]! > size) return false;
    }
    return true;
  }

  return {
    add(time, size) {
      times[count & MASK] = time;
      sizes[count & MASK] = size;
      count++;
    },
    size(apart, memory) {
      const first = Math.max(0, count - KEPT);
      const newest = times[(count - 1) & MASK]!;
      let n = 0;
      for (let i = count - 1; i >= first && newest - times[i & MASK]! <= memory; i--) {
        if (!dominant(i, first, apart)) continue;
        const size = sizes[i & MASK]!;
        let at = n++;
        while (at > 0 && sorted[at - 1]! > size) {
          sorted[at] = sorted[at - 1]!;
          at--;
        }
        sorted[at] = size;
      }
      if (n === 0) return 0;
      const middle = n % 2 === 1 ? sorted[(n - 1) / 2]! : (sorted[n / 2 - 1]! + sorted[n / 2]!) / 2;
      const most = HEAVIEST * middle;
      let whole = 0;
      for (let i = 0; i < n; i++) whole += Math.min(most, sorted[i]!);
      let sum = 0;
      for (let i = 0; i < n; i++) {
        const w = Math.min(most, sorted[i]!);
        if (sum + w >= 0.5 * whole) return sorted[i]!;
        sum += w;
      }
      return sorted[n - 1]!;
    },
    reset() {
      count = 0;
    },
  };
}
