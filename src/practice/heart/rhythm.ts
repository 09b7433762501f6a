/** When the next beat comes and how much it ejects, by the rhythm in force. */
import type { HeartControls } from "../controls/heart-controls.js";
import type { HeartBeat } from "../heart-now.js";
import { exp } from "../numbers/exponential.js";
import { createRandom, type Random } from "../numbers/random.js";
import { constants } from "./constants.js";
import type { SlowWaves } from "./waves.js";

/** Sinus intervals are never shorter than this share of their mean. */
const shortest = 0.5;
const whiteShare = 1 - constants.lowShare.value - constants.breathShare.value;
const lowWeight = Math.sqrt(2 * constants.lowShare.value);
const breathWeight = Math.sqrt(2 * constants.breathShare.value);
const whiteWeight = Math.sqrt(whiteShare);
/** Deeper breathing than this moves the interval no further. */
const deepestForInterval = 2;

export class Rhythm {
  /** The beat that `next` has just begun. */
  kind: HeartBeat["kind"] = "usual";
  /** Its stroke over the usual one, breathing included. */
  strokeRatio = 1;
  /** Seconds from its R wave to the next. */
  interval = 0;

  private readonly random: Random;
  /** This heart's own coupling of ectopic beats. */
  private readonly coupling: number;
  private pending: "usual" | "ectopic" | "after-ectopic" = "usual";
  /** Seconds an ectopic beat came early: the pause after it pays them back. */
  private early = 0;

  /** @param stream stream of the seed that is its alone */
  constructor(
    seed: number,
    stream: number,
    private readonly waves: SlowWaves,
  ) {
    this.random = createRandom(seed, stream);
    const { couplingLow, couplingHigh, couplingScatter } = constants;
    const low = couplingLow.value + couplingScatter.value;
    const high = couplingHigh.value - couplingScatter.value;
    this.coupling = low + (high - low) * this.random.uniform();
  }

  /** Seconds to the first beat. */
  start(controls: HeartControls): number {
    this.interval = 60 / controls.rate;
    return 0.5 * this.interval * this.random.uniform();
  }

  /** Begins a beat. Rate, rhythm and spread are taken as they are now. */
  next(controls: HeartControls): void {
    const breathing = 1 - constants.breathStroke.value * controls.breathing * this.waves.breath;
    const mean = 60 / controls.rate;
    if (controls.rhythm === "fibrillation") {
      this.kind = "fibrillation";
      this.strokeRatio = breathing * fibrillationStroke(this.interval, mean);
      this.interval = this.fibrillationInterval(mean);
      this.pending = "usual";
      return;
    }
    this.kind = this.pending;
    this.strokeRatio = breathing * strokeOf[this.pending];
    this.interval = this.sinusInterval(controls, mean);
    if (this.pending === "ectopic") {
      this.interval += this.early;
      this.pending = "after-ectopic";
      return;
    }
    this.pending = "usual";
    if (controls.ectopics === 0) return;
    // An ectopic beat never follows another at once, so a share p of all beats is p/(1−p) of the rest.
    if (this.random.uniform() * (1 - controls.ectopics) < controls.ectopics) {
      this.pending = "ectopic";
      const scatter = constants.couplingScatter.value * (2 * this.random.uniform() - 1);
      this.early = this.interval * (1 - this.coupling - scatter);
      this.interval -= this.early;
    }
  }

  private sinusInterval(controls: HeartControls, mean: number): number {
    const spread = Math.min(controls.variability / 1000, constants.mostVariability.value * mean);
    const depth = Math.min(controls.breathing, deepestForInterval);
    const interval =
      mean +
      spread *
        (lowWeight * this.waves.slow -
          breathWeight * depth * this.waves.breath +
          whiteWeight * this.random.normal());
    return Math.max(shortest * mean, interval);
  }

  /** Floor plus gamma: the shape is whole, and the floor moves so that the spread is kept exactly. */
  private fibrillationInterval(mean: number): number {
    const spread = constants.fibrillationSpread.value;
    const wanted = (1 - constants.fibrillationFloor.value / mean) / spread;
    const shape = wanted > 1 ? Math.round(wanted * wanted) : 1;
    const above = mean * spread * Math.sqrt(shape);
    return mean - above + above * this.random.gamma(shape);
  }
}

const strokeOf = {
  usual: 1,
  ectopic: constants.ectopicStroke.value,
  "after-ectopic": constants.nextStroke.value,
} as const;

/**
 * Stroke after an interval in fibrillation, over that after one of mean length, whose pressures are the
 * wanted ones.
 * @param before seconds since the beat before
 * @param mean   mean interval, s
 */
export function fibrillationStroke(before: number, mean: number): number {
  const empty = Math.min(constants.fibrillationEmpty.value, constants.fibrillationEmptyShare.value * mean);
  const filled = (interval: number) =>
    Math.max(
      0,
      constants.fibrillationTop.value * (1 - exp(-(interval - empty) / constants.fibrillationFill.value)),
    );
  return filled(before) / filled(mean);
}
