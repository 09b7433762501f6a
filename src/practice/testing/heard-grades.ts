/** What the project's own listener says to practice light; for tests only, the model never asks it. */
import type { CaptureGrade } from "../../model/index.js";
import { hertz } from "../../model/units.js";
import { createPulseListener } from "../../pulse/index.js";

/** Grades of the windows of 5 s, in order. @param rails whether the listener is told the scale's ends */
export function heardGrades(infrared: Float64Array, rate: number, rails = true): readonly CaptureGrade[] {
  const grades: CaptureGrade[] = [];
  const listener = createPulseListener(
    {
      rate: hertz(rate),
      polarity: "systole-down",
      level: true,
      ...(rails ? { rails: { low: 0, high: 1 } } : {}),
    },
    {
      beat: () => {},
      window: (window) => grades.push(window.capture),
      loss: () => {},
    },
  );
  listener.push(infrared);
  listener.end();
  return grades;
}
