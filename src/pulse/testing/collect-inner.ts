/** Runs the conditioner over a whole trace and keeps what it hands on. */
import type { Polarity } from "../../model/channel.js";
import { hertz } from "../../model/units.js";
import { createConditioner } from "../conditioner.js";

export interface CollectedInner {
  readonly rate: number;
  readonly values: Float64Array;
  readonly levels: Float64Array;
}

export function collectInner(
  raw: Float64Array,
  rate: number,
  polarity: Polarity = "systole-up",
  cut = raw.length,
  level = true,
): CollectedInner {
  const values: number[] = [];
  const levels: number[] = [];
  const conditioner = createConditioner(
    { rate: hertz(rate), polarity, level },
    {
      take(block) {
        if (block.first !== values.length)
          throw new Error(`block starts at ${block.first}, not ${values.length}`);
        values.push(...block.values.subarray(0, block.count));
        levels.push(...block.levels.subarray(0, block.count));
      },
      end() {},
    },
  );
  for (let i = 0; i < raw.length; i += cut) conditioner.push(raw.subarray(i, i + cut));
  conditioner.end();
  return {
    rate: conditioner.innerRate,
    values: Float64Array.from(values),
    levels: Float64Array.from(levels),
  };
}
