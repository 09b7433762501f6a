/** Order statistics of short lists without sorting them. */

/**
 * Hoare's selection: the value that would stand at `place` if `list[0..count)` were sorted upwards.
 * Reorders these entries; none may be NaN.
 *
 * @param place 0 ≤ place < count
 * @see C. A. R. Hoare, "Algorithm 65: Find", Commun. ACM 4:321-322, 1961
 */
export function nthSmallest(list: Float64Array, count: number, place: number): number {
  let from = 0;
  let to = count - 1;
  while (from < to) {
    const pivot = list[place]!;
    let i = from;
    let j = to;
    while (i <= j) {
      while (list[i]! < pivot) i++;
      while (pivot < list[j]!) j--;
      if (i <= j) {
        const value = list[i]!;
        list[i] = list[j]!;
        list[j] = value;
        i++;
        j--;
      }
    }
    if (j < place) from = i;
    if (place < i) to = j;
  }
  return list[place]!;
}
