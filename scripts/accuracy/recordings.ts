/** The marked recordings of `data/` with their beats, spans and window labels, read by the project's own readers. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { openRecording } from "../../src/formats/open-recording.js";
import { type Hertz, hertz } from "../../src/model/units.js";
import { fromDisk } from "./file-source.js";

const folder = fileURLToPath(new URL("../../data/", import.meta.url));

export interface Trace {
  readonly values: Float64Array;
  readonly rate: Hertz;
}

export interface MarkedRecording extends Trace {
  readonly name: string;
  /** Recordings of one person share it; settings chosen without that person leave all of them out. */
  readonly person: string;
  readonly ecg: Trace | null;
  /** Hand-marked systolic peaks, feet and R waves, seconds after the first sample. */
  readonly peaks: readonly number[];
  readonly feet: readonly number[];
  readonly rWaves: readonly number[];
  /** Spans of the pleth in which nothing is marked: neither hits nor misses count. */
  readonly unreadable: readonly (readonly [number, number])[];
  /** The same of the ECG. */
  readonly ecgUnreadable: readonly (readonly [number, number])[];
  readonly windows: readonly { readonly from: number; readonly to: number; readonly label: string }[];
}

function table(path: string): Record<string, string>[] {
  const [head, ...rows] = readFileSync(folder + path, "utf8")
    .trim()
    .split(/\r?\n/);
  const names = head!.split(",");
  return rows.map((row) => Object.fromEntries(row.split(",").map((cell, i) => [names[i], cell])));
}

async function readTrace(source: string, rate: string): Promise<Trace> {
  const [file, name] = source.split("#");
  const disk = fromDisk(`${folder}recordings/${file}`);
  const recording = await openRecording(disk.source, disk.folder, rate === "" ? {} : { rate: Number(rate) });
  const index = name === undefined ? 0 : recording.channels.findIndex((channel) => channel.name === name);
  const channel = recording.channels[index];
  if (channel === undefined)
    throw new Error(`${source}: no such channel; ${JSON.stringify(recording.problems)}`);
  const parts: Float64Array[] = [];
  for await (const block of recording.blocks([index])) parts.push(block.values.slice());
  const values = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    values.set(part, at);
    at += part.length;
  }
  return { values, rate: hertz(channel.rate) };
}

const isEcgLead = /^(I{1,3}|V|AVR)$/i;

const ends = (span: Record<string, string>) => [Number(span["start_s"]), Number(span["end_s"])] as const;

export async function loadMarked(): Promise<readonly MarkedRecording[]> {
  const loaded: MarkedRecording[] = [];
  for (const row of table("marked.csv")) {
    const name = row["name"]!;
    const marks = table(`beats/${name}.csv`);
    const spans = table(`beats/${name}.unreadable.csv`);
    const times = (kind: string) =>
      marks.filter((mark) => mark["kind"] === kind).map((mark) => Number(mark["time_s"]));
    loaded.push({
      name,
      person: row["person"]!,
      ...(await readTrace(row["source"]!, row["rate_hz"]!)),
      ecg: row["reference"] === "" ? null : await readTrace(row["reference"]!, ""),
      peaks: times("P"),
      feet: times("F"),
      rWaves: times("R"),
      unreadable: spans.filter((span) => !isEcgLead.test(span["channel"]!)).map(ends),
      ecgUnreadable: spans.filter((span) => isEcgLead.test(span["channel"]!)).map(ends),
      windows: table(`windows/${name}.csv`).map((window) => ({
        from: Number(window["start_s"]),
        to: Number(window["end_s"]),
        label: window["label"]!,
      })),
    });
  }
  return loaded;
}
