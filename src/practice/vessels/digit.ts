/** The vessels under the probe: a soft store fed through the digital arteries. It takes no flow from the limb. */
import { exp } from "../numbers/exponential.js";
import { constants as c } from "./constants.js";
import { Glide } from "./glide.js";
import { Lookup } from "./lookup.js";

const highest = 400;
const step = 0.25;

/** Volume over pressure, in units of `gain`, mmHg. */
const volumes = new Lookup(-40, highest, step, (p) =>
  p > 0
    ? c.volumeBelow.value + c.volumeScale.value * (1 - exp(-p / c.volumeScale.value))
    : c.volumeBelow.value * exp(p / c.volumeBelow.value),
);
/** Its slope, over that at 55 mmHg. */
const softness = new Lookup(-40, highest, step, (p) =>
  p > 0 ? exp((55 - p) / c.volumeScale.value) : exp(55 / c.volumeScale.value) * exp(p / c.volumeBelow.value),
);

export class Digit {
  /** Pressure, mmHg at the digit's height. */
  pressure: number;
  /** Flow out into its veins over the resting flow. */
  flow = 0;
  private readonly feed: Glide;
  private readonly drain: Glide;
  private readonly soft: Glide;
  private readonly closing: Glide;
  private readonly restingFlow: number;

  constructor(
    private readonly dt: number,
    private readonly time: number,
    private readonly closingAtRest: number,
    restingPressure: number,
    tone: number,
    pressure: number,
  ) {
    this.restingFlow = (restingPressure - closingAtRest) / (c.feed.value * (1 + c.drainRatio.value));
    this.feed = new Glide(this.feedAt(tone, 0));
    this.drain = new Glide(this.drainAt(tone, 0));
    this.soft = new Glide(this.softAt(tone, 0));
    this.closing = new Glide(this.closingAt(tone));
    const share = this.feed.value / (this.feed.value + this.drain.value);
    this.pressure = this.closing.value + Math.max(pressure - this.closing.value, 0) * share;
  }

  /** Flow that this tone lets through when nothing is dilated, over that at tone 0; at most 1. */
  need = 1;

  /** New tone and dilatations (0 to 1), to be reached in this many steps. */
  aim(tone: number, dilated: number, softened: number, steps: number): void {
    const resistance = 1 / this.feedAt(tone, 0) + 1 / this.drainAt(tone, 0);
    this.need = Math.min((c.feed.value * (1 + c.drainRatio.value)) / resistance, 1);
    this.feed.aim(this.feedAt(tone, dilated), steps);
    this.drain.aim(this.drainAt(tone, dilated), steps);
    this.soft.aim(this.softAt(tone, softened), steps);
    this.closing.aim(this.closingAt(tone), steps);
  }

  get closingPressure(): number {
    return this.closing.value;
  }

  /** @param supply artery at the digit's root, @param veins, both mmHg at the digit's height */
  step(supply: number, veins: number): void {
    const closing = this.closing.next();
    const feed = this.feed.next();
    const drain = this.drain.next();
    const source = Math.max(supply, closing);
    const sink = Math.max(veins, closing);
    const perVolume = this.dt / (this.soft.next() * this.time * softness.at(this.pressure));
    const open = this.pressure > sink ? drain : 0;
    const next =
      (this.pressure + perVolume * (feed * source + open * sink)) / (1 + perVolume * (feed + open));
    this.pressure = next;
    this.flow = (Math.max(next - sink, 0) * drain) / this.restingFlow;
  }

  /** Arterial volume, in units of `gain`. */
  get volume(): number {
    return this.soft.value * volumes.at(this.pressure);
  }

  private feedAt(tone: number, dilated: number): number {
    return (exp(-c.feedTone.value * tone) * (1 + c.dilatedFlow.value * dilated)) / c.feed.value;
  }

  private drainAt(tone: number, dilated: number): number {
    const drain = exp(-c.drainTone.value * tone) * (1 + c.dilatedFlow.value * dilated);
    return drain / (c.feed.value * c.drainRatio.value);
  }

  private softAt(tone: number, softened: number): number {
    return exp(-c.softTone.value * tone) * (1 + c.dilatedSoft.value * softened);
  }

  private closingAt(tone: number): number {
    return Math.max(this.closingAtRest + c.closingTone.value * tone, 0);
  }
}
