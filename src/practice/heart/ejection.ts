/**
 * How one stroke leaves the ventricle: an early-peaked half-sine of flow, then the small backflow that
 * closes the valve. As volume gone by, not as flow, so that each stroke is whole whatever the step.
 */
import { cos, sin } from "../numbers/circle.js";
import { power } from "../numbers/exponential.js";
import { constants } from "./constants.js";

const points = 1024;
const forward = 1 + constants.backflow.value;
export const backflowTime = constants.backflowTime.value;

/** Volume gone by at n/points of ejection, over the net stroke. */
const ejected = makeEjected();
/** The same from valve closure on: falls from 1 + backflow to 1. */
const returned = Float64Array.from(
  { length: points + 2 },
  (_, n) => forward - constants.backflow.value * (0.5 - 0.5 * cos((Math.PI * Math.min(n, points)) / points)),
);

function makeEjected(): Float64Array {
  const flow = (x: number) => sin(Math.PI * power(x, constants.ejectionSkew.value));
  const volume = new Float64Array(points + 2);
  for (let n = 1; n <= points; n++) {
    const left = (n - 1) / points;
    // Simpson on each piece.
    volume[n] = (volume[n - 1] as number) + flow(left) + 4 * flow(left + 0.5 / points) + flow(n / points);
  }
  const scale = forward / (volume[points] as number);
  for (let n = 1; n <= points; n++) volume[n] = (volume[n] as number) * scale;
  volume[points + 1] = forward;
  return volume;
}

function between(table: Float64Array, share: number): number {
  const at = share * points;
  const n = Math.floor(at);
  const low = table[n] as number;
  return low + (at - n) * ((table[n + 1] as number) - low);
}

/**
 * Volume that has left, over the net volume of the stroke; 0 before, 1 once the valve is shut.
 * @param since seconds since ejection began
 * @param lasts ejection time, s, above 0
 */
export function volumeGone(since: number, lasts: number): number {
  if (since <= 0) return 0;
  if (since < lasts) return between(ejected, since / lasts);
  const closing = since - lasts;
  return closing < backflowTime ? between(returned, closing / backflowTime) : 1;
}

/** R wave to ejection, s; longer when the stroke is weak. */
export function preEjection(strokeRatio: number): number {
  return constants.preEjection.value + constants.preEjectionWeak.value * Math.max(0, 1 - strokeRatio);
}

/** Left ventricular ejection time, s, at a mean rate (/min) and for a stroke over the usual. */
export function ejectionTime(rate: number, strokeRatio: number): number {
  const line = constants.ejectionAtZeroRate.value - constants.ejectionPerRate.value * rate;
  const usual = Math.min(Math.max(line, constants.leastEjection.value), 30 / rate);
  const shrunk = constants.ejectionOfNoStroke.value;
  return usual * (shrunk + (1 - shrunk) * Math.min(1, strokeRatio));
}
