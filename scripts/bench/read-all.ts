/** Everything `limbtide read` does with the samples of one channel; results are counted and dropped. */
import { hertz } from "../../src/model/units.js";
import { createPulseListener } from "../../src/pulse/listener.js";

const BLOCK = 4096;

export interface Reading {
  /** Wall clock, s. */
  readonly took: number;
  readonly beats: number;
  readonly windows: number;
}

export function readAll(values: Float64Array, rate: number): Reading {
  let beats = 0;
  let windows = 0;
  const listener = createPulseListener(
    { rate: hertz(rate), polarity: "systole-up", level: false },
    {
      beat: () => {
        beats += 1;
      },
      window: () => {
        windows += 1;
      },
      loss: () => {},
    },
  );
  const start = performance.now();
  for (let i = 0; i < values.length; i += BLOCK) listener.push(values.subarray(i, i + BLOCK));
  listener.end();
  return { took: (performance.now() - start) / 1000, beats, windows };
}
