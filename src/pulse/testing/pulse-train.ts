/** Pulses of a stated shape at stated feet, and beats at a stated scatter. For tests and the accuracy run only. */
import type { Template } from "../presence-template.js";
import { normal, type Random } from "./noise.js";

/** Beat times that cover `from` to `to` seconds; each interval scatters by `scatter` (a share) on its own. */
export function makeBeats(
  from: number,
  to: number,
  perMinute: number,
  scatter: number,
  random: Random,
): number[] {
  const interval = 60 / perMinute;
  const beats = [from - 2 * interval + interval * random()];
  while (beats.at(-1)! < to + 2 * interval) {
    beats.push(beats.at(-1)! + interval * Math.max(0.3, 1 + scatter * normal(random)));
  }
  return beats;
}

/** A train of pulses of peak-to-peak `size` whose feet lie at `feet`; phase runs straight between feet. */
export function makePulses(
  count: number,
  rate: number,
  feet: readonly number[],
  template: Template,
  size: number,
): Float64Array {
  const out = new Float64Array(count);
  let beat = 0;
  for (let n = 0; n < count; n++) {
    const time = n / rate;
    while (beat < feet.length - 2 && feet[beat + 1]! <= time) beat++;
    const phase = (time - feet[beat]!) / (feet[beat + 1]! - feet[beat]!);
    let sum = 0;
    for (let h = 0; h < template.re.length; h++) {
      const turn = 2 * Math.PI * (h + 1) * phase;
      sum += template.re[h]! * Math.cos(turn) - template.im[h]! * Math.sin(turn);
    }
    out[n] = (size * sum) / template.height;
  }
  return out;
}
