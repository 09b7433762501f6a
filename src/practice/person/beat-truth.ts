/** Follows one site through each heart beat and says what came of it. */
import type { HeartBeat } from "../heart-now.js";
import { absorption } from "../light/absorption.js";
import { exp } from "../numbers/exponential.js";
import type { Place } from "../vessels/index.js";
import type { VesselsNow } from "../vessels-now.js";
import { leastPulse, leastRise, type TruthBeat, type Way } from "./truth.js";

/**
 * A beat's span at a site begins this long after its ejection: well before its wave can come, well after the one
 * before has come even at 200 /min. Half of the foot delays of Allen and Murray (ear 133, thumb 199, toe 301 ms
 * after R), less 60 ms of pre-ejection.
 */
const spanBegins: Readonly<Record<Place, number>> = { ear: 0.03, finger: 0.06, thumb: 0.06, toe: 0.11 };

export class BeatTruth {
  /** Beats that have come to their end, oldest first; the reader empties it. */
  readonly ended: TruthBeat[] = [];
  /** Way and perfusion index of the last of them. */
  way: Way = "none";
  perfusionIndex = 0;

  private readonly begins: number;
  private readonly coming: HeartBeat[] = [];
  private current: HeartBeat | null = null;
  // Blood in the light's way: lowest yet, highest since, and the largest rise from a low to a high.
  private low = 0;
  private lowAt = 0;
  private rise = 0;
  private foot = 0;
  /** Steepest rise since the low: its speed, time and level. The foot is where its tangent leaves the low. */
  private steepest = 0;
  private steepAt = 0;
  private steepLevel = 0;
  private last = 0;
  private lastAt = 0;
  private peak = 0;
  /** Artery below cuff and narrowing: lowest yet, and the largest rise from a low. */
  private below = 0;
  private belowRise = 0;
  private systolic = 0;
  private systolicBelow = 0;
  private external = 0;
  private saturation = 0;
  private mainLow = 0;
  private mainHigh = 0;
  private collateralLow = 0;
  private collateralHigh = 0;

  constructor(place: Place) {
    this.begins = spanBegins[place];
  }

  /** A beat has begun at the heart. */
  begin(beat: HeartBeat): void {
    this.coming.push(beat);
  }

  /** One step of the model, at `time` in s. */
  step(time: number, now: VesselsNow): void {
    const next = this.coming[0];
    if (next !== undefined && time >= next.ejection + this.begins) {
      this.close();
      this.coming.shift();
      this.open(next, time, now);
    }
    if (this.current === null) return;
    const blood = now.arterialPath;
    if (blood < this.low) {
      this.low = blood;
      this.lowAt = time;
      this.steepest = 0;
    } else {
      const speed = (blood - this.last) / (time - this.lastAt);
      if (speed > this.steepest) {
        this.steepest = speed;
        this.steepAt = time;
        this.steepLevel = blood;
      }
      if (blood - this.low > this.rise) this.risen(blood, time, now.saturation);
    }
    this.last = blood;
    this.lastAt = time;
    if (now.upstream > this.systolic) {
      this.systolic = now.upstream;
      this.external = now.external;
    }
    if (now.downstream > this.systolicBelow) this.systolicBelow = now.downstream;
    if (now.downstream < this.below) this.below = now.downstream;
    else if (now.downstream - this.below > this.belowRise) this.belowRise = now.downstream - this.below;
    if (now.mainFlow < this.mainLow) this.mainLow = now.mainFlow;
    else if (now.mainFlow > this.mainHigh) this.mainHigh = now.mainFlow;
    if (now.collateralFlow < this.collateralLow) this.collateralLow = now.collateralFlow;
    else if (now.collateralFlow > this.collateralHigh) this.collateralHigh = now.collateralFlow;
  }

  /** The largest rise yet: its top is here, its foot where the tangent of its steepest part leaves the low. */
  private risen(blood: number, time: number, saturation: number): void {
    this.rise = blood - this.low;
    this.peak = time;
    this.saturation = saturation;
    this.foot = Math.max(this.lowAt, this.steepAt - (this.steepLevel - this.low) / this.steepest);
  }

  private open(beat: HeartBeat, time: number, now: VesselsNow): void {
    this.current = beat;
    this.low = now.arterialPath;
    this.lowAt = time;
    this.rise = 0;
    this.steepest = 0;
    this.last = now.arterialPath;
    this.lastAt = time;
    this.systolic = now.upstream;
    this.systolicBelow = now.downstream;
    this.below = now.downstream;
    this.belowRise = 0;
    this.external = now.external;
    this.mainLow = this.mainHigh = now.mainFlow;
    this.collateralLow = this.collateralHigh = now.collateralFlow;
  }

  private close(): void {
    if (this.current === null) return;
    // Light falls as e^(-mu x); relative to its mean, half of the fall lies on either side.
    const fall = this.rise === 0 ? 1 : exp(-absorption("infrared", this.saturation) * this.rise);
    const index = (200 * (1 - fall)) / (1 + fall);
    // The digit also swells slowly with its tone: without a rise of pressure in the artery that is no pulse.
    const comes = index >= leastPulse && this.belowRise >= leastRise;
    this.perfusionIndex = comes ? index : 0;
    const mainSwing = this.mainHigh - this.mainLow;
    const collateralSwing = this.collateralHigh - this.collateralLow;
    this.way = !comes ? "none" : mainSwing >= collateralSwing ? "main" : "collateral";
    this.ended.push({
      r: this.current.r,
      foot: comes ? this.foot : null,
      peak: comes ? this.peak : null,
      perfusionIndex: this.perfusionIndex,
      systolic: this.systolic,
      systolicBelow: this.systolicBelow,
      external: this.external,
      way: this.way,
      strokeRatio: this.current.strokeRatio,
    });
    this.current = null;
  }
}
