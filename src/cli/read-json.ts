/** `read --json`, described in docs/json.md. */
import type { Site } from "../model/index.js";
import type { ChannelReading } from "./engine.js";
import { problemJson, reasonJson, rounded, seconds, siteJson, sourceJson } from "./json-values.js";
import { lengthOf, type OpenedSource } from "./open-source.js";
import { readSentence } from "./read-sentence.js";

export function readJson(
  source: OpenedSource,
  site: Site | null,
  reading: ChannelReading,
): Record<string, unknown> {
  const { windows, beats, losses, problems } = reading;
  const end = lengthOf(source.channel) ?? windows.at(-1)?.to ?? 0;
  return {
    schema: "limbtide.read/1",
    ...sourceJson(source),
    site: siteJson(site),
    duration_s: seconds(end),
    sentence: readSentence(site, windows, losses),
    beats_s: beats.map((beat) => seconds(beat.peak)),
    windows: windows.map((window) => ({
      start_s: seconds(window.from),
      end_s: seconds(window.to),
      capture: window.capture,
      pulse_rate_per_min: rounded(window.pulseRate, 1),
      perfusion_index_pct: rounded(window.perfusionIndex, 4),
      believable: window.capture === "solid",
      reasons: window.reasons.map((reason) => reason.code),
      reason_values: window.reasons.map(reasonJson),
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
