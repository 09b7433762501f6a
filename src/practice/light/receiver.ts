/**
 * From light on the sensor to the number a device stores: photon noise by counting electrons, the amplifier's own
 * noise, its full scale, and the converter's steps.
 */
import { QuickNormal } from "../numbers/quick-normal.js";
import { lightConstants as c } from "./constants.js";

/**
 * Electrons collected for one sample of one colour.
 * @param current light current, nA
 * @see I = N e / t; the count of photons obeys Poisson's law, so its relative spread is 1/√N
 */
export function electronsPerSample(current: number): number {
  return (current * 1e-9 * c.gate.value) / c.electronCharge.value;
}

export class Receiver {
  /** The stored number, share of full scale, on a step of the converter. */
  value = 0;
  /** Whether it stands at the top or the bottom of the scale. */
  clipped = false;
  private readonly noise: QuickNormal;
  private readonly steps: number;
  private readonly top: number;

  /** @param bits of the converter over the full scale, 8 to 24 */
  constructor(bits: number, seed: number, stream: number) {
    this.noise = new QuickNormal(seed, stream);
    let steps = 1;
    for (let n = 0; n < bits; n++) steps *= 2;
    this.steps = steps;
    this.top = steps - 1;
  }

  /**
   * @param light   on the sensor, share of full scale, 0 or more
   * @param current light current at the resting level, nA
   */
  next(light: number, current: number): void {
    const rest = c.restingLevel.value;
    const photon = (light * rest) / electronsPerSample(current);
    const spread = Math.sqrt(photon + c.amplifierNoise.value * c.amplifierNoise.value);
    this.noise.next();
    const code = Math.round((light + spread * this.noise.value) * this.steps);
    this.clipped = code >= this.top || code <= 0;
    this.value = (code >= this.top ? this.top : Math.max(code, 0)) / this.steps;
  }

  /** Nothing is connected: a flat zero. The noise goes on unseen, so that plugging in finds the same draws. */
  nothing(): void {
    this.noise.next();
    this.value = 0;
    this.clipped = false;
  }
}
