/** Tables made up for tests: a wave with a known formula, so expected values come from theory. */

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A pulse-like wave, units arbitrary: 1.3 Hz with its second harmonic. */
export function wave(t: number): number {
  return 2000 + 500 * Math.sin(2 * Math.PI * 1.3 * t) + 150 * Math.sin(2 * Math.PI * 2.6 * t + 1);
}

export interface TableOptions {
  readonly rows: number;
  /** True time of row `n`, seconds. */
  readonly at: (n: number) => number;
  /** Stamp as written for true time `t`; without it there is no clock column. */
  readonly stamp?: (t: number, n: number) => string;
  readonly header?: string;
  readonly lineEnd?: string;
}

/** `stamp,value` rows of `wave`, with six decimals. */
export function waveTable({
  rows,
  at,
  stamp,
  header = "time_s,PLETH",
  lineEnd = "\n",
}: TableOptions): string {
  let text = header === "" ? "" : `${header}${lineEnd}`;
  for (let n = 0; n < rows; n++) {
    const value = wave(at(n)).toFixed(6);
    text += `${stamp === undefined ? "" : `${stamp(at(n), n)},`}${value}${lineEnd}`;
  }
  return text;
}
