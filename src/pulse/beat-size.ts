/**
 * The usual size of a pulse: the median over the waves that tower over their neighbours, weighted
 * by their size, so that a slow heart's few beats outweigh the ripple between them. It looks at
 * waves, not at accepted beats, so a wrong decision cannot feed itself.
 */

const KEPT = 64;
const MASK = KEPT - 1;
const NONE = -1;
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
  /** Of each wave, the nearest before it that is as large, and the nearest after it that is larger. */
  const before = new Int32Array(KEPT);
  const after = new Int32Array(KEPT);
  const sorted = new Float64Array(KEPT);
  let count = 0;

  /** Whether wave `i` is the greatest within `apart`; of equals the first. Waves before `first` are forgotten. */
  function dominant(i: number, first: number, apart: number): boolean {
    const at = i & MASK;
    const time = times[at]!;
    const larger = before[at]!;
    if (larger >= first && time - times[larger & MASK]! < apart) return false;
    const later = after[at]!;
    return later === NONE || times[later & MASK]! - time >= apart;
  }

  return {
    add(time, size) {
      const first = Math.max(0, count + 1 - KEPT);
      // Each step passes over waves that are smaller than one after them: those are never looked at again.
      let larger = count - 1;
      while (larger >= first && sizes[larger & MASK]! < size) {
        after[larger & MASK] = count;
        larger = before[larger & MASK]!;
      }
      const at = count & MASK;
      times[at] = time;
      sizes[at] = size;
      before[at] = larger;
      after[at] = NONE;
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
