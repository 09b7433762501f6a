/** From the points of a trace to the path of a drawing. */
import { coordinate } from "./svg.js";
import type { Trace } from "./trace.js";

/** Seconds and values to px. */
export interface Plot {
  x(time: number): number;
  y(value: number): number;
}

/** Unbroken runs of points, already in px. */
function runsOf(trace: Trace, plot: Plot): (readonly [string, string])[][] {
  const runs: (readonly [string, string])[][] = [];
  let run: (readonly [string, string])[] = [];
  for (let i = 0; i < trace.values.length; i++) {
    const x = plot.x(trace.times[i] as number);
    const y = plot.y(trace.values[i] as number);
    if (Number.isFinite(x) && Number.isFinite(y)) {
      run.push([coordinate(x), coordinate(y)]);
    } else if (run.length > 0) {
      runs.push(run);
      run = [];
    }
  }
  if (run.length > 0) runs.push(run);
  return runs;
}

/** The line through the points; empty when there are none. */
export function linePath(trace: Trace, plot: Plot): string {
  return runsOf(trace, plot)
    .map((run) => `M${run.map((point) => point.join(" ")).join("L")}`)
    .join("");
}

/** The area between the points and the level `base` (in px). */
export function areaPath(trace: Trace, plot: Plot, base: number): string {
  const level = coordinate(base);
  return runsOf(trace, plot)
    .map((run) => {
      const first = run[0] as readonly [string, string];
      const last = run[run.length - 1] as readonly [string, string];
      return `M${first[0]} ${level}L${run.map((point) => point.join(" ")).join("L")}L${last[0]} ${level}Z`;
    })
    .join("");
}
