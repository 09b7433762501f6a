/** Sorting of the few values in front of a longer, reused list, without a view or a copy. */

/** Sorts `list[0..count)` upwards in place by insertion: meant for some tens of values, none of them NaN. */
export function sortFirst(list: Float64Array, count: number): void {
  for (let i = 1; i < count; i++) {
    const value = list[i]!;
    let at = i;
    while (at > 0 && list[at - 1]! > value) {
      list[at] = list[at - 1]!;
      at--;
    }
    list[at] = value;
  }
}
