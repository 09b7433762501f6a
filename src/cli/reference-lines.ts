/** What the heart's own beats say about a reading, for a person. */
import { resolve } from "node:path";
import type { ChosenReference } from "./choose-reference.js";
import type { ChannelReading } from "./engine.js";
import type { OpenedSource } from "./open-source.js";
import { plainText } from "./plain-text.js";

const beatWord = (count: number) => `${count} ${count === 1 ? "beat" : "beats"}`;

/** One line where there is a reference, none otherwise. Only solid stretches count: what movement hides is not missed (S5). */
export function referenceLines(
  reference: ChosenReference | null,
  source: OpenedSource,
  heart: ChannelReading["heart"],
): string[] {
  if (reference === null || heart === null) return [];
  const where = resolve(reference.file) === resolve(source.file) ? "" : ` of ${reference.file}`;
  const name = plainText(`${reference.channel === null ? "marks" : `ECG ${reference.channel}`}${where}`);
  const { counts, deficit } = heart;
  if (counts === null || deficit === null) return [`against ${name}: no pulses and heart beats to pair`];
  const { heartBeats, missed, extra } = counts;
  const off = [
    ...(missed > 0 ? [`${beatWord(missed)} without pulse (deficit ${deficit.toFixed(1)} /min)`] : []),
    ...(extra > 0 ? [`${extra} ${extra === 1 ? "pulse" : "pulses"} without beat`] : []),
  ];
  const said = off.length > 0 ? off.join(", ") : "each with its pulse";
  return [`against ${name}: ${beatWord(heartBeats)} of the heart in solid stretches, ${said}`];
}
