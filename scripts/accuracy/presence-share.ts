/** A count out of trials with its 95 % interval. */
export interface Share {
  readonly hits: number;
  readonly trials: number;
  /** 0 to 1; Wilson score interval. */
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** @see E. B. Wilson, J. Am. Stat. Assoc. 22:209-212, 1927 */
export function share(hits: number, trials: number): Share {
  const z = 1.959964;
  const value = trials > 0 ? hits / trials : Number.NaN;
  const middle = (value + z ** 2 / (2 * trials)) / (1 + z ** 2 / trials);
  const half =
    (z * Math.sqrt((value * (1 - value)) / trials + (z / (2 * trials)) ** 2)) / (1 + z ** 2 / trials);
  return { hits, trials, value, low: Math.max(0, middle - half), high: Math.min(1, middle + half) };
}
