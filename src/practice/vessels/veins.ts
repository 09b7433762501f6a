/** The limb's veins: one soft store that empties into the trunk past whatever is tied round the limb. */
import { constants as c } from "./constants.js";

export class Veins {
  constructor(
    /** mmHg */
    public pressure: number,
    private readonly dt: number,
  ) {}

  /** @param outlet pressure that must be passed on the way to the trunk, mmHg */
  step(inflow: number, outlet: number): void {
    const filled = this.pressure / c.venousStiffening.value;
    const compliance = c.venousCompliance.value / (1 + filled * filled);
    const outflow = Math.max(this.pressure - outlet, 0) / c.venousResistance.value;
    this.pressure += (this.dt / compliance) * (inflow - outflow);
  }
}
