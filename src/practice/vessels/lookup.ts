/** A function put into a table of even steps, read between them along straight lines. */
export class Lookup {
  private readonly values: Float64Array;
  private readonly perUnit: number;
  private readonly last: number;

  /** Covers `low` to `high` in steps of `step`; outside, the end value holds. */
  constructor(
    private readonly low: number,
    high: number,
    step: number,
    value: (x: number) => number,
  ) {
    const count = Math.round((high - low) / step) + 1;
    this.perUnit = 1 / step;
    this.last = count - 1;
    this.values = new Float64Array(count);
    for (let n = 0; n < count; n++) this.values[n] = value(low + n * step);
  }

  at(x: number): number {
    const place = (x - this.low) * this.perUnit;
    if (!(place > 0)) return this.values[0] as number;
    if (place >= this.last) return this.values[this.last] as number;
    const n = Math.floor(place);
    const left = this.values[n] as number;
    return left + (place - n) * ((this.values[n + 1] as number) - left);
  }
}
