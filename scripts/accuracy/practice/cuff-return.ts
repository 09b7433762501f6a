/**
 * The cuff is let down: at which pressure does the engine see the wave again, and what was the true systolic of
 * that very beat? Scored at both settings of the unsettled constant; a model, not arms.
 */
import type { Loss } from "../../../src/model/index.js";
import type { TruthBeat } from "../../../src/practice/index.js";
import { overhear } from "./overheard.js";
import { deviation, mean } from "./timing.js";

export interface CuffRow {
  readonly chokePressure: number;
  /** mmHg/s. */
  readonly deflation: number;
  /** /min. */
  readonly heart: number;
  readonly trials: number;
  /** Deflations in which no return was told. */
  readonly missed: number;
  /** Cuff pressure at the first beat seen minus the true systolic of that beat, mmHg. */
  readonly bias: number;
  readonly spread: number;
  /** The same for the model's first beat of a true PI above 0.05 %: what no engine can do better than. */
  readonly modelBias: number;
}

const rate = 125;
const firstSeen = 0.05;

export function scoreCuffReturn(
  repeats: number,
  deflations: readonly number[] = [2, 3, 5, 8],
  hearts: readonly number[] = [50, 75, 100, 110],
  chokes: readonly number[] = [-2, -12],
): CuffRow[] {
  return chokes.flatMap((chokePressure) =>
    hearts.flatMap((heart) => deflations.map((deflation) => row(chokePressure, deflation, heart, repeats))),
  );
}

function row(chokePressure: number, deflation: number, heart: number, repeats: number): CuffRow {
  const errors: number[] = [];
  const modelErrors: number[] = [];
  let missed = 0;
  for (let trial = 0; trial < repeats; trial++) {
    const top = 160;
    // The phase of the deflation against the beats is drawn by the trial.
    const down = 40 + (trial % 10) * 0.083;
    const lasts = (top - 50) / deflation;
    const truth: TruthBeat[] = [];
    let loss: Loss | null = null;
    const heard = overhear(
      {
        seed: 70_000 + trial,
        rate,
        sites: [{ at: { side: "left", digit: "index finger" }, person: { chokePressure } }],
        turns: [
          { at: 0, turn: "rate", to: heart },
          { at: 25, site: 0, turn: "cuff", to: top, over: 4 },
          { at: down, site: 0, turn: "cuff", to: 50, over: lasts },
        ],
      },
      [
        {
          loss: (told) => {
            if (told.back !== null && told.back >= down) loss ??= told;
          },
        },
      ],
    );
    const seconds = Math.ceil(down + lasts + 8);
    heard.advance(seconds * rate, ([site]) => truth.push(...site!.beats));
    heard.end();
    const pressureAt = (time: number) => top - deflation * Math.max(0, Math.min(lasts, time - down));
    const model = truth.find(
      ({ peak, perfusionIndex }) => peak !== null && peak > down && perfusionIndex >= firstSeen,
    );
    if (model !== undefined) modelErrors.push(pressureAt(model.foot!) - model.systolic);
    const back = (loss as Loss | null)?.back ?? null;
    const beat = back === null ? undefined : closest(truth, back);
    if (back === null || beat === undefined) missed++;
    else errors.push(pressureAt(beat.foot ?? back) - beat.systolic);
  }
  return {
    chokePressure,
    deflation,
    heart,
    trials: repeats,
    missed,
    bias: mean(errors),
    spread: deviation(errors),
    modelBias: mean(modelErrors),
  };
}

/** The model's beat whose wave tops nearest to `time`. */
function closest(truth: readonly TruthBeat[], time: number): TruthBeat | undefined {
  let best: TruthBeat | undefined;
  for (const beat of truth) {
    if (
      Math.abs((beat.peak ?? beat.r + 0.35) - time) <
      Math.abs((best?.peak ?? (best?.r ?? -9e9) + 0.35) - time)
    )
      best = beat;
  }
  return best;
}
