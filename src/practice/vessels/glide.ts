/** Carries values that are worked out every few steps evenly through the steps between, so that no stair shows. */
export class Glide {
  /** As they stand now. */
  readonly values: Float64Array;
  private readonly slopes: Float64Array;

  constructor(start: readonly number[]) {
    this.values = Float64Array.from(start);
    this.slopes = new Float64Array(start.length);
  }

  /** The value at place `n` is to be at `target` after `steps` calls of `next`, and must then be aimed anew. */
  aim(n: number, target: number, steps: number): void {
    this.slopes[n] = (target - (this.values[n] as number)) / steps;
  }

  next(): void {
    const { values, slopes } = this;
    for (let n = 0; n < values.length; n++) values[n] = (values[n] as number) + (slopes[n] as number);
  }
}
