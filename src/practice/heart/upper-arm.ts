/**
 * The heart's own light copy of the way from aorta to upper arm and beyond: the two sections of the
 * arterial ladder at rest, with the beds they feed. Only there to know which stroke and resistance give
 * the pressures wanted at the upper arm.
 */
import { exp } from "../numbers/exponential.js";
import { constants } from "./constants.js";

/** exp((85 − p)/49) on whole mmHg: the second section is stiffer when full. */
const softness = Float64Array.from({ length: 402 }, (_, p) =>
  Math.min(5, Math.max(0.6, exp((constants.armMid.value - p) / constants.armSoftening.value))),
);

export class UpperArm {
  /** Pressure at the upper arm, mmHg. */
  pressure: number;
  private flow1 = 0;
  private flow2 = 0;
  private beyond: number;

  constructor(
    private readonly dt: number,
    pressure: number,
  ) {
    this.pressure = pressure;
    this.beyond = pressure;
  }

  /** Moves on by one step under a pressure at the aorta. */
  step(aortic: number): void {
    const dt = this.dt;
    const { armInertance1, armResistance1, armCompliance1 } = constants;
    const { armInertance2, armResistance2, armCompliance2 } = constants;
    const k1 = dt / armInertance1.value;
    const k2 = dt / armInertance2.value;
    const flow1 = (this.flow1 + k1 * (aortic - this.pressure)) / (1 + k1 * armResistance1.value);
    const flow2 = (this.flow2 + k2 * (this.pressure - this.beyond)) / (1 + k2 * armResistance2.value);
    this.flow1 = flow1;
    this.flow2 = flow2;
    this.pressure += (dt / armCompliance1.value) * (flow1 - flow2);
    const bed = Math.max(0, this.beyond - constants.armClosing.value) / constants.armBed.value;
    const at = Math.min(400, Math.max(0, this.beyond));
    const compliance = armCompliance2.value * (softness[Math.floor(at)] as number);
    this.beyond += (dt / compliance) * (flow2 - bed);
  }
}
