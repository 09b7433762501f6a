/**
 * Finds the stroke and the resistance that give the wanted pressures at the upper arm, for an even train
 * of usual beats. Each round runs a few beats of a small model and corrects both; one round a beat follows
 * a ramp, since a change of wishes between two beats is small.
 */
import { exp } from "../numbers/exponential.js";
import { constants } from "./constants.js";
import { backflowTime, ejectionTime, volumeGone } from "./ejection.js";
import { UpperArm } from "./upper-arm.js";

/** What is wanted, of an even train of usual beats. */
export interface Wanted {
  /** mmHg at the upper arm. */
  readonly systolic: number;
  readonly diastolic: number;
  /** mmHg, without breathing. */
  readonly centralVenous: number;
  /** /min. */
  readonly rate: number;
}

/** mmHg: nearer than this, the fit rests. */
const close = 0.05;
/** mmHg, and a share of the rate: wishes that moved less are not followed yet, since a round costs. */
const nearlySame = 0.1;
const nearlySameRate = 0.002;
/** Seconds of model before a beat is measured. */
const settling = 1.6;

export class PressureFit {
  /** Usual stroke, mL. */
  stroke = 60;
  /** Peripheral resistance, mmHg·s/mL. */
  resistance = 1.2;
  /** Arterial compliance, mL/mmHg. */
  compliance: number = constants.compliance.value;
  /** Pressures that the train above gives at the upper arm, mmHg. */
  systolic = 0;
  diastolic = 0;
  /** Pressure in the windkessel at the R wave of that train, mmHg. */
  atR = 80;

  private readonly wanted = { systolic: 0, diastolic: 0, centralVenous: 0, rate: 0 };
  private readonly arm: UpperArm;
  private settled = false;

  /** @param dt seconds a step: that of the heart, so that both make the same small errors */
  constructor(private readonly dt: number) {
    this.arm = new UpperArm(dt, 90);
  }

  /** Largest distance from the wanted pressures, mmHg. */
  get error(): number {
    return Math.max(
      Math.abs(this.systolic - this.wanted.systolic),
      Math.abs(this.diastolic - this.wanted.diastolic),
    );
  }

  /** Takes the wishes and corrects stroke and resistance, by as many rounds at most; none if all is met. */
  follow(wanted: Wanted, rounds: number): void {
    const mine = this.wanted;
    const diastolic = Math.min(wanted.diastolic, wanted.systolic - constants.leastPulsePressure.value);
    const moved = Math.max(
      Math.abs(mine.systolic - wanted.systolic),
      Math.abs(mine.diastolic - diastolic),
      Math.abs(mine.centralVenous - wanted.centralVenous),
    );
    if (moved > nearlySame || Math.abs(mine.rate - wanted.rate) > nearlySameRate * wanted.rate) {
      this.settled = false;
      mine.systolic = wanted.systolic;
      mine.diastolic = diastolic;
      mine.centralVenous = wanted.centralVenous;
      mine.rate = wanted.rate;
      const stiff = constants.ordinaryPulsePressure.value / (mine.systolic - diastolic);
      this.compliance = Math.max(
        constants.leastCompliance.value,
        constants.compliance.value * Math.min(1, stiff),
      );
    }
    for (let round = 0; round < rounds && !this.settled; round++) this.correct();
  }

  private correct(): void {
    const { stroke, resistance, wanted } = this;
    this.measure();
    const interval = 60 / wanted.rate;
    const pulse = Math.max(1, this.systolic - this.diastolic);
    const nextStroke = held(
      stroke * ratio((wanted.systolic - wanted.diastolic) / pulse),
      1,
      constants.mostStroke.value,
    );
    // Diastolic pressure lies below the mean by an amount that goes with the stroke.
    const sag = (stroke * resistance) / interval - (this.diastolic - wanted.centralVenous);
    const mean = wanted.diastolic - wanted.centralVenous + sag * (nextStroke / stroke);
    const nextResistance = held(
      resistance * ratio((Math.max(1, mean) * interval) / (nextStroke * resistance)),
      constants.leastResistance.value,
      constants.mostResistance.value,
    );
    if (this.error < close) {
      this.settled = true;
      return;
    }
    this.stroke = nextStroke;
    this.resistance = nextResistance;
  }

  /** Runs the train with the present stroke and resistance, and measures its last beat. */
  private measure(): void {
    const { dt, stroke, resistance, compliance } = this;
    const { rate, centralVenous } = this.wanted;
    const steps = Math.round(60 / rate / dt);
    const lasts = ejectionTime(rate, 1);
    const busy = Math.min(steps, Math.ceil((lasts + backflowTime) / dt));
    const gain = dt / compliance;
    const divide = 1 / (1 + gain / resistance);
    const leak = (gain * centralVenous) / resistance;
    // One beat from nothing gives the pressure at which a beat ends as it began: the train is linear in it.
    let end = 0;
    let gone = 0;
    for (let n = 1; n <= steps; n++) {
      const next = n <= busy ? volumeGone(n * dt, lasts) : 1;
      end = (end + (stroke * (next - gone)) / compliance + leak) * divide;
      gone = next;
    }
    let pressure = end / (1 - exp((-steps * dt) / (resistance * compliance)));
    const beats = Math.max(2, Math.ceil(settling / (steps * dt)) + 1);
    const impedance = constants.characteristicResistance.value / dt;
    let highest = 0;
    let lowest = 1e9;
    for (let beat = 1; beat <= beats; beat++) {
      gone = 0;
      for (let n = 1; n <= steps; n++) {
        const next = n <= busy ? volumeGone(n * dt, lasts) : 1;
        const volume = stroke * (next - gone);
        gone = next;
        pressure = (pressure + volume / compliance + leak) * divide;
        this.arm.step(pressure + impedance * volume);
        if (beat < beats) continue;
        if (this.arm.pressure > highest) highest = this.arm.pressure;
        if (this.arm.pressure < lowest) lowest = this.arm.pressure;
      }
    }
    this.atR = pressure;
    this.systolic = highest;
    this.diastolic = lowest;
  }
}

/** No round changes anything by more than this: far from the goal the model is far from even. */
function ratio(change: number): number {
  return held(change, 0.6, 1.6);
}

function held(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}
