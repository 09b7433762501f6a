/**
 * All that moves a probe on a limb. It multiplies the light of both colours alike by 1 + g, which draws their
 * ratio R towards 1. Kinds, bands and sizes: section 3 of the model's physiology, all from memory.
 */
import type { SiteControls } from "../controls/index.js";
import { createRandom } from "../numbers/random.js";
import { BandNoise } from "./band-noise.js";
import { HeartShake } from "./heart-shake.js";
import { Knocks } from "./knocks.js";
import { Rubbing } from "./rubbing.js";
import { lightStreams as streams } from "./streams.js";

/** A control of random movement is the amplitude of the sine of the same power. */
const sine = 0.01 * Math.SQRT1_2;
const percent = 0.01;
/** Light is never moved below this share: something always reaches the sensor. */
const darkest = 0.02;
/** A vehicle shakes in surges: its size varies by this much, slowly; the divisor keeps the power. */
const surge = 0.5;
const surgePower = Math.sqrt(1 + surge * surge);
const surgeLow = 0.02;
const surgeHigh = 0.3;

export class Movement {
  /** What the light is multiplied by now, above 0. */
  factor = 1;
  /** Venous blood moved to and fro, standard deviation 1. */
  slosh = 0;
  readonly heartShake: HeartShake;
  private readonly drift: BandNoise;
  private readonly tremor: BandNoise;
  private readonly transport: BandNoise;
  private readonly transportSurge: BandNoise;
  private readonly sloshing: BandNoise;
  private readonly knocks: Knocks;
  private readonly rubbing: Rubbing;

  /** @param rate samples per second @param first the first of the streams of this probe */
  constructor(rate: number, seed: number, first: number) {
    const band = (low: number, high: number, stream: number) =>
      new BandNoise(low, high, rate, seed, first + stream);
    this.drift = band(0.05, 0.3, streams.drift);
    this.tremor = band(4, 12, streams.tremor);
    this.transport = band(3, 15, streams.transport);
    this.transportSurge = band(surgeLow, surgeHigh, streams.transportSurge);
    this.sloshing = band(0.5, 3, streams.slosh);
    this.knocks = new Knocks(rate, seed, first + streams.knocks, first + streams.knockTimes);
    this.rubbing = new Rubbing(rate, createRandom(seed, first + streams.rubbing));
    this.heartShake = new HeartShake(rate, createRandom(seed, first + streams.heartShake));
  }

  /** One sample on. Everything moves on whether it is felt or not. */
  next(controls: SiteControls, sinceEjection: number): void {
    this.sloshing.next();
    this.drift.next();
    this.tremor.next();
    this.transport.next();
    this.transportSurge.next();
    this.knocks.next(controls.knocksPerMinute);
    this.rubbing.next(controls.rubbingRate, controls.rubbing > 0);
    this.heartShake.next(sinceEjection);
    this.slosh = this.sloshing.value;
    const shaken = (this.transport.value * Math.max(0, 1 + surge * this.transportSurge.value)) / surgePower;
    const random =
      controls.drift * this.drift.value + controls.tremor * this.tremor.value + controls.transport * shaken;
    const shaped =
      controls.knocks * this.knocks.value +
      controls.rubbing * this.rubbing.value +
      controls.heartShake * this.heartShake.value;
    const factor = 1 + sine * random + percent * shaped;
    this.factor = Math.max(factor, darkest);
  }
}
