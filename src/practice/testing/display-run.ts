/** A display watched over a whole run of light. */
import { createDisplay, type Display, type DisplayMessage, type DisplayOptions } from "../display/index.js";
import type { ProbeRun } from "./probe-run.js";

export interface Shown {
  readonly time: number;
  readonly trace: number;
  readonly spo2: number | null;
  readonly rate: number | null;
  readonly pi: number | null;
  readonly age: number;
  readonly beep: boolean;
  readonly pitch: number;
  readonly message: DisplayMessage;
}

export function watch(
  run: ProbeRun,
  options: Partial<DisplayOptions> = {},
  before?: (time: number, display: Display) => void,
): readonly Shown[] {
  const display = createDisplay({ rate: run.rate, ...options });
  return Array.from(run.infrared, (infrared, n) => {
    const time = n / run.rate;
    before?.(time, display);
    display.push(infrared, run.red[n]!);
    const { trace, spo2, rate, pi, age, beep, pitch, message } = display;
    return { time, trace, spo2, rate, pi, age, beep, pitch, message };
  });
}
