/** Mean of the last samples. A running sum is renewed once per turn of its buffer, so rounding cannot pile up. */
import { DspError } from "./errors.js";
import type { Stage } from "./stage.js";

/**
 * Mean of the last `length` samples, or of all since the start while there are fewer.
 * Output has the input's unit; it lags by (`length` − 1) / 2 samples.
 *
 * @throws {DspError} `size-out-of-range` unless `length` is a whole number from 1;
 *   `non-finite-sample` from `next`
 */
export function createMovingMean(length: number): Stage<number, number> {
  if (!Number.isSafeInteger(length) || length < 1)
    throw new DspError("size-out-of-range", `length ${length}`);
  const ring = new Float64Array(length);
  let at = 0;
  let held = 0;
  let sum = 0;
  return {
    next(x) {
      if (x - x !== 0) throw new DspError("non-finite-sample", String(x));
      sum += x - ring[at]!;
      ring[at] = x;
      if (++at === length) {
        at = 0;
        sum = 0;
        for (let i = 0; i < length; i++) sum += ring[i]!;
      }
      if (held < length) held++;
      return sum / held;
    },
    reset() {
      ring.fill(0);
      at = 0;
      held = 0;
      sum = 0;
    },
  };
}
