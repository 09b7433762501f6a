/** The strip of one reading. */
import { chooseRows, rowSeconds, stripPicture } from "../handover/index.js";
import { cannotSee } from "../limb/index.js";
import { type Site, siteName } from "../model/index.js";
import { collectTraces } from "./collect-traces.js";
import type { ChannelReading } from "./engine.js";
import { joinGrades } from "./grade-spans.js";
import type { OpenedSource } from "./open-source.js";
import { plainText } from "./plain-text.js";
import { readSentence } from "./read-sentence.js";

/** Two bins to a px of a row. */
const bins = 648;

export async function readPicture(
  source: OpenedSource,
  site: Site | null,
  reading: ChannelReading,
): Promise<string> {
  const grades = joinGrades(reading.windows);
  const start = grades[0]?.from ?? 0;
  const length = rowSeconds((grades.at(-1)?.to ?? 0) - start);
  const rows = chooseRows(grades, reading.losses).map((from) => ({ from, to: from + length }));
  const traces = await collectTraces(source.recording, source.at, rows, bins);
  const beats = reading.beats.map((beat) => beat.peak);
  const { channel } = source;
  const file = plainText(source.file.replace(/^.*[/\\]/s, ""));
  return stripPicture({
    sentence: readSentence(site, reading.windows, reading.losses),
    context: `${file}#${plainText(channel.name)}`,
    site: site === null ? "Site not stated" : capital(siteName(site)),
    role: "unstated",
    rows: traces.map(({ trace }) => ({
      trace,
      beats: beats.filter((time) => time >= trace.from && time < trace.to),
    })),
    grades,
    losses: reading.losses,
    cannotSee: cannotSee(null),
    notes: [
      channel.polarity === "systole-down" ? "Raw light falls in systole; it is drawn turned over." : "",
      channel.kind === "display-pleth" ? "A display trace with its own gain: size means nothing." : "",
    ].filter((note) => note !== ""),
  });
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
