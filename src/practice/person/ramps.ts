/** Moves one struct of controls towards what was asked, evenly over a while. */
import { type ControlRow, checkControl } from "../controls/index.js";
import { PracticeError } from "../errors.js";

interface Ramp {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly begin: number;
  readonly over: number;
}

export class Ramps {
  private running: Ramp[] = [];

  constructor(
    private readonly rows: readonly ControlRow[],
    private readonly values: Record<string, number | string>,
  ) {}

  /**
   * From `now` on; a later turn of the same control takes over where the earlier one has come to.
   * @param over seconds from the present value to the new one; 0 at once. Words change at once.
   * @throws {PracticeError} `unknown-control`, `out-of-range`, `unknown-choice`
   */
  turn(name: string, to: number | string, over: number, now: number): void {
    checkControl(this.rows, name, to);
    if (!(over >= 0 && over <= 86400))
      throw new PracticeError("out-of-range", `over ${over} is not within 0 to 86400 s`);
    this.running = this.running.filter((ramp) => ramp.name !== name);
    if (over === 0 || typeof to === "string") this.values[name] = to;
    else this.running.push({ name, from: this.values[name] as number, to, begin: now, over });
  }

  /** Brings the values to time `now`. */
  advance(now: number): void {
    if (this.running.length === 0) return;
    let ended = false;
    for (const { name, from, to, begin, over } of this.running) {
      const share = (now - begin) / over;
      if (share >= 1) ended = true;
      this.values[name] = share >= 1 ? to : from + (to - from) * share;
    }
    if (ended) this.running = this.running.filter(({ begin, over }) => now - begin < over);
  }
}
