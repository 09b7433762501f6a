/** Pieces that all JSON answers share. */
import { type Presence, type Problem, type Reason, type Site, siteName } from "../model/index.js";
import type { ChosenReference } from "./choose-reference.js";
import type { OpenedSource } from "./open-source.js";

/** `value` to `digits` decimals, so that the last digits do not pretend; `null` stays `null`. */
export function rounded(value: number, digits: number): number;
export function rounded(value: number | null, digits: number): number | null;
export function rounded(value: number | null, digits: number): number | null {
  if (value === null || !Number.isFinite(value)) return null;
  return Number(value.toFixed(digits));
}

/** Times to a tenth of a millisecond. */
export const seconds = (value: number): number => rounded(value, 4);

export function problemJson(problem: Problem): Record<string, unknown> {
  const { code, weight, where, expected, found } = problem;
  return { code, weight, where, expected, found };
}

export function reasonJson(reason: Reason): Record<string, unknown> {
  return {
    code: reason.code,
    value: rounded(reason.value, 6),
    unit: reason.unit,
    limit: rounded(reason.limit, 6),
  };
}

export function presenceJson(presence: Presence | null): Record<string, unknown> | null {
  if (presence === null) return null;
  return {
    answer: presence.answer,
    p: presence.p,
    reference: presence.reference,
    perfusion_index_below_pct: rounded(presence.upperLimitIndex, 4),
  };
}

/** `ecg` for a lead, `marks` for beats marked by somebody. */
export function referenceJson(reference: ChosenReference | null): Record<string, unknown> | null {
  if (reference === null) return null;
  const { file, channel, heart } = reference;
  return { file, channel, kind: heart.kind === "lead" ? "ecg" : "marks" };
}

export function siteJson(site: Site | null): string | null {
  return site === null ? null : siteName(site);
}

export function sourceJson(source: OpenedSource): Record<string, unknown> {
  const { channel, file, span, recording } = source;
  return {
    source: source.text,
    file,
    format: recording.format,
    started_at: recording.startedAt,
    channel: channel.name,
    kind: channel.kind,
    colour: channel.colour,
    rate_hz: channel.rate,
    from_s: span.from,
    to_s: span.to,
  };
}
