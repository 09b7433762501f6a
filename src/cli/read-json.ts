/** `read --json`, described in docs/json.md. */
import type { BeatCounts } from "../limb/index.js";
import type { Site } from "../model/index.js";
import type { ChosenReference } from "./choose-reference.js";
import type { ChannelReading } from "./engine.js";
import {
  presenceJson,
  problemJson,
  reasonJson,
  referenceJson,
  rounded,
  seconds,
  siteJson,
  sourceJson,
} from "./json-values.js";
import { lengthOf, type OpenedSource } from "./open-source.js";
import { readSentence } from "./read-sentence.js";

export function readJson(
  source: OpenedSource,
  site: Site | null,
  reading: ChannelReading,
  reference: ChosenReference | null,
): Record<string, unknown> {
  const { windows, beats, losses, problems, heart } = reading;
  const end = lengthOf(source.channel) ?? windows.at(-1)?.to ?? 0;
  return {
    schema: "limbtide.read/1",
    ...sourceJson(source),
    site: siteJson(site),
    duration_s: seconds(end),
    sentence: readSentence(site, windows, losses),
    reference:
      reference === null || heart === null ? null : { ...referenceJson(reference), ...heartJson(heart) },
    beats_s: beats.map((beat) => seconds(beat.peak)),
    windows: windows.map((window, i) => ({
      start_s: seconds(window.from),
      end_s: seconds(window.to),
      capture: window.capture,
      pulse_rate_per_min: rounded(window.pulseRate, 1),
      perfusion_index_pct: rounded(window.perfusionIndex, 4),
      believable: window.capture === "solid",
      reasons: window.reasons.map((reason) => reason.code),
      reason_values: window.reasons.map(reasonJson),
      presence: presenceJson(heart?.held[i]?.presence ?? null),
      agreement: countsJson(heart?.held[i]?.counts ?? null),
    })),
    losses: losses.map((loss) => ({
      from_s: seconds(loss.from),
      seen_s: seconds(loss.seen),
      back_s: rounded(loss.back, 4),
      back_seen_s: rounded(loss.backSeen, 4),
    })),
    problems: problems.map(problemJson),
  };
}

function countsJson(counts: BeatCounts | null): Record<string, unknown> | null {
  if (counts === null) return null;
  return {
    heart_beats: counts.heartBeats,
    matched: counts.matched,
    missed: counts.missed,
    extra: counts.extra,
  };
}

/** Over the solid windows alone: a beat that movement hides is no beat missed (S5). */
function heartJson({
  counts,
  deficit,
  delay,
}: NonNullable<ChannelReading["heart"]>): Record<string, unknown> {
  return {
    agreement: countsJson(counts),
    pulse_deficit_per_min: rounded(deficit, 2),
    delay_ms: rounded(delay === null ? null : 1000 * delay, 1),
  };
}
