/** The limb's veins: one soft store that empties into the trunk past whatever is tied round the limb. */
import { constants as c } from "./constants.js";

const emptyCompliance = c.venousCompliance.value;
const stiffening = c.venousStiffening.value;
const resistance = c.venousResistance.value;

export class Veins {
  /** ml/s in, and the pressure that must be passed on the way to the trunk, mmHg; set before each step. */
  inflow = 0;
  outlet = 0;

  constructor(
    /** mmHg */
    public pressure: number,
    private readonly dt: number,
  ) {}

  step(): void {
    const { pressure } = this;
    const filled = pressure / stiffening;
    const outflow = Math.max(pressure - this.outlet, 0) / resistance;
    this.pressure =
      pressure + ((this.dt * (1 + filled * filled)) / emptyCompliance) * (this.inflow - outflow);
  }
}
