/** Whether clean pulses of every shape, rate and size keep their pulse: what the capture grade must never deny. */
import { cleanShapes, makeCleanPulses } from "../../src/pulse/testing/clean-pulses.js";
import { createRandom } from "../../src/pulse/testing/noise.js";
import { type GradeCounts, listenTo, noGrades } from "./grade.js";

export interface CleanRow {
  readonly perMinute: number;
  readonly rhythm: "steady" | "irregular";
  /** SD of the noise, share of the pulse's height. */
  readonly noise: number;
  /** Shapes with a steep rise and overtones, or rounded ones that hardly differ from a hum. */
  readonly shapes: "steep" | "rounded";
  readonly counts: GradeCounts;
}

const cleanRates = [30, 32, 40, 45, 60, 75, 100, 150, 180, 210, 220];
const irregularRates = [60, 75, 100, 120];

/**
 * Grades synthetic pulses, 30 s per shape, rate, noise and sampling rate, of sizes from 1e-3 to 1e5 on any offset and
 * a slow base; intervals scatter by up to 5 %, or by 22 % as in atrial fibrillation. None may be `none` or `off`.
 */
export function gradeClean(
  rates: readonly number[] = [25, 50, 100, 125, 250, 500, 1000],
  noises: readonly number[] = [0, 0.01, 0.03, 0.05, 0.1],
): readonly CleanRow[] {
  let seed = 0;
  const paces = [
    ...cleanRates.map((perMinute) => ({ perMinute, rhythm: "steady" as const })),
    ...irregularRates.map((perMinute) => ({ perMinute, rhythm: "irregular" as const })),
  ];
  return paces.flatMap(({ perMinute, rhythm }) =>
    noises.flatMap((noise) =>
      (["steep", "rounded"] as const).map((shapes) => {
        const counts = noGrades();
        for (const shape of cleanShapes.filter((one) => one.steep === (shapes === "steep"))) {
          for (const rate of rates) {
            const random = createRandom(++seed);
            const size = 10 ** (8 * random() - 3);
            const scatter = rhythm === "irregular" ? 0.22 : 0.05 * random();
            const offset = 10 * (random() - 0.5) * size;
            const wander = random() < 0.5 ? 0 : random();
            const pulses = { shape, seconds: 30, rate, perMinute, scatter, size, noise, offset, wander };
            for (const { capture } of listenTo(makeCleanPulses(pulses, random), rate).windows)
              counts[capture]++;
          }
        }
        return { perMinute, rhythm, noise, shapes, counts };
      }),
    ),
  );
}
