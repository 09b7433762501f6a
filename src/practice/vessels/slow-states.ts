/** What vessels and blood remember over seconds and minutes: flow debt, postural reflex, staleness. */
import { constants as c } from "./constants.js";

/** Approach of `value` to `target` with this time constant over a time `span`, stable at any span. */
function lagged(value: number, target: number, time: number, span: number): number {
  return value + (target - value) * (span / (time + span));
}

export class SlowStates {
  /** Dilatation of muscle and of the digit by the flow they are owed, 0 to 1. */
  muscle = 0;
  digit = 0;
  /** Dilatation that only returning flow brings about: it peaks a minute after a release. */
  flowMediated = 0;
  /** Tone added where veins stand full. */
  reflex: number;
  /** Saturation of the digit's arterial blood, a share of 1. */
  saturation: number;
  private muscleFlow = 1;
  private digitFlow = 1;

  constructor(veins: number, saturation: number) {
    this.reflex = reflexAt(veins);
    this.saturation = saturation;
  }

  /**
   * @param span seconds since the last call
   * @param muscleFlow over its resting flow, mean over the span
   * @param digitFlow likewise
   * @param need of the digit for flow at its present tone, over that at tone 0
   * @param veins at the digit's height, mmHg
   * @param arterial saturation that arrives, a share of 1
   */
  step(
    span: number,
    muscleFlow: number,
    digitFlow: number,
    need: number,
    veins: number,
    arterial: number,
  ): void {
    this.muscleFlow = lagged(this.muscleFlow, muscleFlow, c.flowLag.value, span);
    this.digitFlow = lagged(this.digitFlow, digitFlow / need, c.flowLag.value, span);
    this.muscle = debt(this.muscle, this.muscleFlow, c.muscleDebt.value, c.muscleRepay.value, span);
    this.digit = debt(this.digit, this.digitFlow, c.digitDebt.value, c.digitRepay.value, span);
    const called = this.digit * Math.min(this.digitFlow, 1);
    this.flowMediated = lagged(this.flowMediated, called, c.digitLag.value, span);
    this.reflex = lagged(this.reflex, reflexAt(veins), c.reflexLag.value, span);
    const renewed = (span * digitFlow) / c.refill.value;
    const used = (span * c.uptake.value) / c.uptakeAt.value;
    this.saturation = (this.saturation + renewed * arterial) / (1 + renewed + used);
  }
}

/** Flow owed dilates, flow given repays. */
function debt(dilated: number, flow: number, owe: number, repay: number, span: number): number {
  const up = (span * (1 - Math.min(flow, 1))) / owe;
  const down = (span * Math.min(flow, 2)) / repay;
  return (dilated + up) / (1 + up + down);
}

function reflexAt(veins: number): number {
  const share = (veins - c.reflexStart.value) / c.reflexSpan.value;
  return c.reflexTone.value * Math.min(Math.max(share, 0), 1);
}
