/** Pressure lost in a narrowed artery: q (linear + quadratic |q|), after Young and Tsai. */
import { constants as c } from "./constants.js";

/** cgs pressure in one mmHg. */
const dynes = 1333.22;
/** Lumen left that counts as none: its resistance is above 1e7 mmHg s/ml. */
const leastLeft = 5e-5;

export class Narrowing {
  /** mmHg s/ml, over that of the open artery. */
  linear = 0;
  /** mmHg s2/ml2 */
  quadratic = 0;
  private share = 0;
  private readonly area: number;

  /** @param diameter of the open artery, cm */
  constructor(private readonly diameter: number) {
    this.area = (Math.PI / 4) * diameter * diameter;
  }

  /**
   * @param share of the area lost, 0 to 1; 1 is shut
   * @see D. F. Young and F. Y. Tsai, "Flow characteristics in models of arterial stenoses", J Biomech 1973;6:395
   */
  set(share: number): void {
    if (share === this.share) return;
    this.share = share;
    const left = Math.max(1 - share, leastLeft);
    this.linear = this.viscous(left) - this.viscous(1);
    const widening = 1 / left - 1;
    this.quadratic =
      (c.lossKt.value * c.bloodDensity.value * widening * widening) / (2 * this.area * this.area * dynes);
  }

  private viscous(left: number): number {
    const narrowest = this.diameter * Math.sqrt(left);
    const kv = (32 * (0.83 * c.narrowingLength.value + 1.64 * narrowest)) / (this.diameter * left * left);
    return (kv * c.bloodViscosity.value) / (this.area * this.diameter * dynes);
  }
}
