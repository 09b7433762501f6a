/**
 * Decides what a channel is from its name, its unit and what the user stated. The rows are in
 * `channel-kind-table.ts`; this file only walks them. Knows nothing of files or samples.
 *
 * When in doubt the answer claims less: `display-pleth` rather than `raw-light`, because only raw
 * light may carry a perfusion index (S3); `other` rather than any wave.
 */
import type { Channel } from "../model/index.js";
import { excerpt } from "../model/index.js";
import { kindRows, namelessWords } from "./channel-kind-table.js";
import type { ReadOptions } from "./recording.js";

export type InferredKind = Pick<Channel, "kind" | "colour" | "polarity" | "because">;

/** A device refreshes the numbers it prints a few times a second at most; faster columns are waves. */
export const fastestNumber = 10;

/**
 * @param channel name as written in the source, unit as written (`""` or left out: unknown)
 * @param options `kinds` is looked up by exact name, then without regard to case; it overrides every row
 * @returns kind, colour (raw light only), polarity (`systole-up` unless raw light) and the reason in plain words
 */
export function inferKind(
  channel: { readonly name: string; readonly unit?: string },
  options?: ReadOptions,
): InferredKind {
  const name = channel.name.trim();
  const stated = statedKind(name, options);
  if (stated !== null) return stated;
  const words = asWords(name);
  const unit = channel.unit?.trim() ?? "";
  for (const row of kindRows) {
    if (!row.name.test(row.asWritten === true ? name : words)) continue;
    if (row.unit !== undefined && !row.unit.test(unit)) continue;
    return {
      kind: row.kind,
      colour: row.colour ?? null,
      polarity: row.polarity ?? "systole-up",
      because:
        row.unit === undefined ? `name "${excerpt(name)}" means ${row.says}` : `unit "${excerpt(unit)}"`,
    };
  }
  return { ...unknown, because: name === "" ? "no name" : `name "${excerpt(name)}" is not known` };
}

/**
 * The same for the only wave-like column of a source. There a rate's name over a fast column, or a name
 * that says nothing, is taken as a display pleth: the user opened it as one, and a display pleth claims least.
 *
 * @param rate samples per second
 * @returns `assumed` true when the name alone would not have said so; the reader then adds a note
 */
export function inferLoneKind(
  channel: { readonly name: string; readonly unit?: string },
  rate: number,
  options?: ReadOptions,
): InferredKind & { readonly assumed: boolean } {
  const byName = inferKind(channel, options);
  const nameless = byName.kind === "other" && namelessWords.test(asWords(channel.name.trim()));
  if (rate <= fastestNumber || !(byName.kind === "pulse-rate" || nameless))
    return { ...byName, assumed: false };
  const name = excerpt(channel.name.trim());
  const because = nameless
    ? `the only column, ${rate} per second; taken as a display pleth`
    : `the only column, named "${name}" but ${rate} per second is too fast for a rate; taken as a display pleth`;
  return { kind: "display-pleth", colour: null, polarity: "systole-up", because, assumed: true };
}

const unknown = { kind: "other", colour: null, polarity: "systole-up" } as const;

function statedKind(name: string, options: ReadOptions | undefined): InferredKind | null {
  const kinds = options?.kinds ?? {};
  const same = Object.keys(kinds).find((key) => key === name);
  const key = same ?? Object.keys(kinds).find((other) => other.trim().toLowerCase() === name.toLowerCase());
  const stated = key === undefined ? undefined : kinds[key];
  if (stated === undefined) return null;
  const because = "stated by the user";
  if (stated === "display") return { kind: "display-pleth", colour: null, polarity: "systole-up", because };
  return { kind: "raw-light", colour: stated, polarity: "systole-down", because };
}

/** `IR_ADC` → `ir adc`, `PulseRate` → `pulse rate`, `PPG-Finger` → `ppg finger`; `SpO2`, `aVR` stay whole. */
function asWords(name: string): string {
  return name
    .slice(0, 200)
    .normalize("NFKC")
    .replace(/([a-z])([A-Z][a-z])/g, "$1 $2")
    .replace(/([A-Z]{2,})([A-Z][a-z]{2,})/g, "$1 $2")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();
}
