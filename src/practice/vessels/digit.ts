/** The vessels under the probe: a soft store fed through the digital arteries. It takes no flow from the limb. */
import { exp } from "../numbers/exponential.js";
import { constants as c } from "./constants.js";
import { Glide } from "./glide.js";
import { Lookup } from "./lookup.js";

const highest = 400;
const step = 0.25;
const scale = c.volumeScale.value;
const below = c.volumeBelow.value;

/** Volume over pressure, in units of `gain`, mmHg. */
const volumes = new Lookup(-40, highest, step, (p) =>
  p > 0 ? below + scale * (1 - exp(-p / scale)) : below * exp(p / below),
);
/** Its slope, over that at 55 mmHg. */
const softness = new Lookup(-40, highest, step, (p) =>
  p > 0 ? exp((55 - p) / scale) : exp(55 / scale + p / below),
);

const slopeAt55 = exp(-55 / scale);

/** Places of the gliding values: conductances in and out, compliance, closing pressure. */
const feeds = 0;
const drains = 1;
const softs = 2;
const closes = 3;

const restingConductance = 1 / (c.feed.value * (1 + c.drainRatio.value));

export class Digit {
  /** mmHg at the digit's height. */
  pressure: number;
  /** Arterial volume, in units of `gain`. */
  volume = 0;
  /** Flow out into its veins over the resting flow. */
  flow = 0;
  /** Flow that its tone lets through when nothing is dilated, over that at tone 0; at most 1. */
  need = 1;
  /** Artery at the digit's root and its veins, mmHg at the digit's height; set before each step. */
  supply = 0;
  veins = 0;
  closing = 0;
  private readonly glide: Glide;
  private readonly restingFlow: number;

  constructor(
    private readonly dt: number,
    private readonly time: number,
    private readonly closingAtRest: number,
    restingPressure: number,
    tone: number,
    supply: number,
  ) {
    this.restingFlow = (restingPressure - closingAtRest) * restingConductance;
    this.glide = new Glide([0, 0, 0, 0]);
    this.aim(tone, 0, 0, 1);
    this.glide.next();
    const { values } = this.glide;
    const share = (values[feeds] as number) / ((values[feeds] as number) + (values[drains] as number));
    this.closing = values[closes] as number;
    this.pressure = this.closing + Math.max(supply - this.closing, 0) * share;
    this.volume = (values[softs] as number) * volumes.at(this.pressure);
    this.aim(tone, 0, 0, 1);
  }

  /**
   * @param dilated opens the way through, 0 to 1
   * @param softened makes its store softer, 0 to 1
   * @param steps in which all this is to be reached
   */
  aim(tone: number, dilated: number, softened: number, steps: number): void {
    const { glide } = this;
    const feed = exp(-c.feedTone.value * tone) / c.feed.value;
    const drain = exp(-c.drainTone.value * tone) / (c.feed.value * c.drainRatio.value);
    const wider = 1 + c.dilatedFlow.value * dilated;
    this.need = Math.min((feed * drain) / ((feed + drain) * restingConductance), 1);
    glide.aim(feeds, feed * wider, steps);
    glide.aim(drains, drain * wider, steps);
    glide.aim(softs, exp(-c.softTone.value * tone) * (1 + c.dilatedSoft.value * softened), steps);
    glide.aim(closes, Math.max(this.closingAtRest + c.closingTone.value * tone, 0), steps);
  }

  step(): void {
    const { glide } = this;
    const { values } = glide;
    const softBefore = values[softs] as number;
    glide.next();
    const feed = values[feeds] as number;
    const drain = values[drains] as number;
    const soft = values[softs] as number;
    const closing = values[closes] as number;
    const sink = Math.max(this.veins, closing);
    const slope = softness.at(this.pressure);
    // A wall that softens or tightens moves no blood by itself: a shut digit does not pulse with its tone.
    const given = ((soft - softBefore) * this.volume) / (soft * softBefore * slope * slopeAt55);
    const pressure = Math.max(this.pressure - given, 0);
    const perVolume = this.dt / (soft * this.time * slope);
    const filling = this.supply > closing ? feed : 0;
    const open = pressure > sink ? drain : 0;
    const next =
      (pressure + perVolume * (filling * this.supply + open * sink)) / (1 + perVolume * (filling + open));
    this.closing = closing;
    this.pressure = next;
    this.volume = soft * volumes.at(next);
    this.flow = (Math.max(next - sink, 0) * drain) / this.restingFlow;
  }
}
