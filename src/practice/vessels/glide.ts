/** Carries a value that is worked out every few steps evenly through the steps between, so that no stair shows. */
export class Glide {
  private slope = 0;
  private left = 0;

  constructor(public value: number) {}

  /** To be at `target` after `steps` calls of `next`. */
  aim(target: number, steps: number): void {
    this.slope = (target - this.value) / steps;
    this.left = steps;
  }

  next(): number {
    if (this.left > 0) {
      this.left -= 1;
      this.value += this.slope;
    }
    return this.value;
  }
}
