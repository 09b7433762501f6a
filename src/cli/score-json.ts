/** `score --json`, described in docs/json.md. */
import { rounded } from "./json-values.js";
import { beatTolerance } from "./score-beats.js";
import type { RecordScore } from "./score-record.js";
import { type BeatFigures, figuresOf, type Pooled } from "./score-summary.js";

function beatsJson(figures: BeatFigures | null): Record<string, unknown> | null {
  if (figures === null) return null;
  const { timing } = figures;
  return {
    hits: figures.hits,
    missed: figures.missed,
    extra: figures.extra,
    sensitivity: rounded(figures.sensitivity, 6),
    precision: rounded(figures.precision, 6),
    f1: rounded(figures.f1, 6),
    timing_ms:
      timing === null
        ? null
        : { median: rounded(timing.median, 2), p05: rounded(timing.low, 2), p95: rounded(timing.high, 2) },
  };
}

export function scoreJson(
  folder: string,
  scores: readonly RecordScore[],
  pooled: Pooled,
  leftOut: readonly { readonly name: string; readonly why: string }[],
): Record<string, unknown> {
  return {
    schema: "limbtide.score/1",
    folder,
    tolerance_ms: beatTolerance * 1000,
    records: scores.map((score) => ({
      name: score.name,
      channel: score.channel,
      beats: beatsJson(score.beats === null ? null : figuresOf(score.beats)),
      grades: score.grades,
    })),
    pooled: { beats: beatsJson(pooled.beats), grades: pooled.grades },
    left_out: leftOut,
  };
}
