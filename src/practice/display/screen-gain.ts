/** The automatic gain of a display's trace: whatever the last seconds hold is made to fill the screen. */
import { exp } from "../numbers/exponential.js";
import { displayConstants as c } from "./constants.js";

/** The stretch is kept as this many cells. */
const cells = 12;
/** The gain follows with this time constant, s. */
const followTime = 0.4;

export class ScreenGain {
  /** The trace now, 0 at the bottom of the screen to 1 at its top. */
  trace = 0.5;
  /** Height of the last seconds, %. */
  height = 0;
  private readonly lows = new Float64Array(cells);
  private readonly highs = new Float64Array(cells);
  private low = Number.POSITIVE_INFINITY;
  private high = Number.NEGATIVE_INFINITY;
  private middle = 0;
  private cell = 0;
  private filled = 0;
  private left: number;
  private shownHeight: number;
  private shownMiddle = 0;
  private readonly cellLength: number;
  private readonly follow: number;
  private readonly least: number;

  /** @param rate samples per second @param floor whether small things stay small on the screen */
  constructor(rate: number, floor: boolean) {
    this.cellLength = Math.max(1, Math.round((rate * c.gainSeconds.value) / cells));
    this.left = this.cellLength;
    this.follow = 1 - exp(-1 / (rate * followTime));
    this.least = floor ? c.floorHeight.value : c.smallestHeight.value;
    this.shownHeight = 1;
  }

  /** Forgets what came before. */
  reset(): void {
    this.filled = 0;
    this.cell = 0;
    this.left = this.cellLength;
    this.low = Number.POSITIVE_INFINITY;
    this.high = Number.NEGATIVE_INFINITY;
    this.middle = 0;
    this.height = 0;
  }

  /** @param pulse pulsatile part, % */
  next(pulse: number): void {
    if (pulse < this.low) this.low = pulse;
    if (pulse > this.high) this.high = pulse;
    this.left--;
    if (this.left === 0) this.turn();
    const wanted = Math.min(c.largestHeight.value, Math.max(this.least, this.height));
    this.shownHeight += this.follow * (wanted - this.shownHeight);
    this.shownMiddle += this.follow * (this.middle - this.shownMiddle);
    const trace = 0.5 + (c.gainFill.value * (pulse - this.shownMiddle)) / this.shownHeight;
    this.trace = Math.min(1, Math.max(0, trace));
  }

  /** Closes a cell and looks over all. */
  private turn(): void {
    this.left = this.cellLength;
    this.lows[this.cell] = this.low;
    this.highs[this.cell] = this.high;
    this.cell = this.cell + 1 === cells ? 0 : this.cell + 1;
    if (this.filled < cells) this.filled++;
    this.low = Number.POSITIVE_INFINITY;
    this.high = Number.NEGATIVE_INFINITY;
    let low = this.low;
    let high = this.high;
    for (let n = 0; n < this.filled; n++) {
      low = Math.min(low, this.lows[n]!);
      high = Math.max(high, this.highs[n]!);
    }
    this.height = high - low;
    this.middle = 0.5 * (high + low);
  }
}
