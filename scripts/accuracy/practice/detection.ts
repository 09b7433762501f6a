/** How small a pulse of the practice limb is still found, by the light there is. */
import { undisturbed } from "../../../src/limb/testing/make-reading.js";
import type { CaptureGrade, Seconds } from "../../../src/model/index.js";
import { overhear } from "./overheard.js";

export interface DetectionCell {
  /** nA. */
  readonly photocurrent: number;
  /** Median true perfusion index, %, over the trials. */
  readonly perfusionIndex: number;
  readonly trials: number;
  /** Presence with the sound side as reference: found at p < 0.001. */
  readonly found: number;
  /** Windows by grade. */
  readonly grades: Readonly<Record<CaptureGrade, number>>;
}

const rate = 125;
const usualGain = 5.2e-4;
const smallestGain = 1e-4;
/** Perfusion index of the usual person at rest, %: what `tone` and `gain` start from. */
const steps = [0, 0.8, 1.3, 1.8, 2.1, 2.3, 2.5];

/** One cell per light and vessel tone; tone is how a pulse gets small in life. */
export function scoreDetection(repeats: number, currents: readonly number[] = [100, 10, 2]): DetectionCell[] {
  return currents.flatMap((photocurrent) => steps.map((tone) => cell(photocurrent, tone, repeats)));
}

function cell(photocurrent: number, tone: number, repeats: number): DetectionCell {
  const grades = { solid: 0, shaky: 0, none: 0, off: 0, unreadable: 0 };
  const indices: number[] = [];
  let found = 0;
  for (let trial = 0; trial < repeats; trial++) {
    const gain = tone > 2 ? smallestGain * 1.5 : usualGain;
    const { ears, advance, end } = overhear(
      {
        seed: 9000 + trial,
        rate,
        person: "usual",
        sites: [
          { at: { side: "right", digit: "index finger" } },
          { at: { side: "left", digit: "index finger" }, person: { gain } },
        ],
        turns: [
          { at: 0, site: 1, turn: "tone", to: tone },
          { at: 0, site: 1, turn: "photocurrent", to: photocurrent },
          { at: 0, site: 1, turn: "drift", to: 0 },
        ],
      },
      [{}, { window: ({ from, capture }) => from >= 5 && grades[capture]++ }],
    );
    advance(30 * rate, ([, suspect]) => {
      for (const { perfusionIndex } of suspect!.beats) indices.push(perfusionIndex);
    });
    end();
    const reading = ears[1]!.reading({
      from: 7 as Seconds,
      to: 27 as Seconds,
      saturation: null,
      declared: undisturbed,
      reference: { kind: "other-side", beats: ears[0]!.feet() },
    });
    if (reading.presence !== null && reading.presence.p < 0.001) found++;
  }
  indices.sort((a, b) => a - b);
  return { photocurrent, perfusionIndex: indices[indices.length >> 1] ?? 0, trials: repeats, found, grades };
}
