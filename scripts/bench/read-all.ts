/** Everything `limbtide read` does with the samples of one channel; results are counted and dropped. */
import { hertz } from "../../src/model/units.js";
import { createPulseListener } from "../../src/pulse/listener.js";

const BLOCK = 4096;

export interface Reading {
  /** Wall clock, s. */
  readonly took: number;
  /** Processor time of the whole process, its compiler and collector included, s. */
  readonly cpu: number;
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
  const before = process.cpuUsage();
  const start = performance.now();
  for (let i = 0; i < values.length; i += BLOCK) listener.push(values.subarray(i, i + BLOCK));
  listener.end();
  const took = (performance.now() - start) / 1000;
  const { user, system } = process.cpuUsage(before);
  return { took, cpu: (user + system) / 1e6, beats, windows };
}

/** Reads every sample once, so that the system has given the process its memory before the clock starts. */
export function touch(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  return sum;
}
