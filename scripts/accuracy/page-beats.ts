/** The beats part of the accuracy page. */
import type { ScoredChannel } from "./beats.js";
import { scoreBeats, scoreLeftOut, scoreRates } from "./beats.js";
import { decimals, tableOf } from "./markdown.js";
import { precision, sensitivity } from "./match-beats.js";
import { averageShape, scoreSynthetic, syntheticRates } from "./synthetic-beats.js";

const error = (one: { readonly mean: number; readonly sd: number } | null) =>
  one === null ? "–" : `${decimals(one.mean, 1)} ± ${decimals(one.sd, 1)}`;

export function pageOfBeats(channels: readonly ScoredChannel[], draws: number): string[] {
  const { rows, pooled } = scoreBeats(channels);
  const leftOut = scoreLeftOut(channels, draws);
  const rates = scoreRates(channels);
  const shapes = channels.map(averageShape);
  const synthetic = [
    ...syntheticRates.map((rate) => scoreSynthetic(shapes, rate, 20, 0.03)),
    ...[75, 120].map((rate) => scoreSynthetic(shapes, rate, 20, 0.22)),
  ];
  return [
    "## Beats against hand marks (real recordings)",
    "",
    "Systolic peaks within ±150 ms, paired one to one, closest first; unreadable spans count neither way. Timing is found minus marked,",
    "mean ± SD in ms. Bars: pooled F1 ≥ 0.99, each record ≥ 0.97 (2 errors allowed under 50 beats). The shipped settings were chosen",
    "with these recordings in view.",
    "",
    tableOf(
      ["record", "hits", "missed", "extra", "sensitivity", "precision", "F1", "peak, ms", "foot, ms"],
      [
        ...rows.map((row) => [
          `\`${row.name}\``,
          row.hits,
          row.missed,
          row.extra,
          decimals(sensitivity(row), 4),
          decimals(precision(row), 4),
          decimals(row.f1, 4),
          error(row.peakError),
          error(row.footError),
        ]),
        [
          "**pooled**",
          pooled.hits,
          pooled.missed,
          pooled.extra,
          decimals(sensitivity(pooled), 4),
          decimals(precision(pooled), 4),
          `**${decimals(pooled.f1, 4)}**`,
          "",
          "",
        ],
      ],
    ),
    "",
    `### Settings chosen without the scored person`,
    "",
    `${draws} settings drawn evenly from wide ranges. For each person they are ranked by pooled F1 on all other people; the best one, or the`,
    "mean of the best twenty, is scored on that person. Bars: pooled ≥ 0.985, each ≥ 0.93. Over all drawn settings, good and bad, pooled F1",
    `runs from ${decimals(leftOut.drawnPooled.lowest, 4)} over a median of ${decimals(leftOut.drawnPooled.median, 4)} to ${decimals(leftOut.drawnPooled.highest, 4)}.`,
    "",
    tableOf(
      ["chosen", "pooled F1", "worst record", "hits", "missed", "extra"],
      leftOut.scored.map(({ best, pooled: left, worst, rows: each }) => [
        best === 1 ? "the single best" : `mean of the best ${best}`,
        `**${decimals(left.f1, 4)}**`,
        `${decimals(worst, 4)} \`${each.reduce((a, b) => (b.f1 < a.f1 ? b : a)).name}\``,
        left.hits,
        left.missed,
        left.extra,
      ]),
    ),
    "",
    "### Sampling rates",
    "",
    "The same recordings brought to each rate (altered). Bar: pooled ≥ 0.99 at every rate.",
    "",
    tableOf(
      ["samples/s", "pooled F1", "lowest record"],
      rates.map(({ rate, pooled: f, worst, worstName }) => [
        rate,
        decimals(f, 4),
        `${decimals(worst, 4)} \`${worstName}\``,
      ]),
    ),
    "",
    "### Pulse rates (synthetic)",
    "",
    "Average beats of the marked channels strung together at 100 samples/s in white noise, 20 dB. Interval scatter 3 % is a steady rhythm,",
    "22 % one like atrial fibrillation.",
    "",
    tableOf(
      ["beats/min", "interval scatter", "pooled F1", "lowest shape"],
      synthetic.map(({ perMinute, scatter, pooled: f, worst, worstName }) => [
        perMinute,
        `${100 * scatter} %`,
        decimals(f, 4),
        `${decimals(worst, 4)} \`${worstName}\``,
      ]),
    ),
    "",
  ];
}
