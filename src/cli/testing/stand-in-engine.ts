/**
 * An engine for tests of the surface: reads a plain table and finds tops of an undisturbed wave.
 * It says nothing about how well the real one reads; sides are judged by the real `limb`.
 */
import type { Recording } from "../../formats/recording.js";
import { compareSides, takeReading } from "../../limb/index.js";
import {
  type Beat,
  type CaptureGrade,
  type Channel,
  hertz,
  type Percent,
  perMinute,
  sampleIndex,
  seconds,
  type Window,
} from "../../model/index.js";
import type { ChannelReading, Engine, SideSource, Span } from "../engine.js";

const kindsByName: Readonly<Record<string, Pick<Channel, "kind" | "colour" | "polarity">>> = {
  IR: { kind: "raw-light", colour: "infrared", polarity: "systole-down" },
  RED: { kind: "raw-light", colour: "red", polarity: "systole-down" },
  PLETH: { kind: "display-pleth", colour: null, polarity: "systole-up" },
  ECG: { kind: "ecg", colour: null, polarity: "systole-up" },
};

const other = { kind: "other", colour: null, polarity: "systole-up" } as const;

interface Table {
  readonly recording: Recording;
  readonly columns: readonly Float64Array[];
}

const tables = new WeakMap<Recording, Table>();

function openTable(
  name: string,
  text: string,
  rate: number,
  stated: Readonly<Record<string, string>>,
): Recording {
  const lines = text.split("\n").filter((line) => line !== "");
  const names = lines[0]?.split(",") ?? [];
  const cells = lines
    .slice(1)
    .map((line) => line.split(",").map((cell) => (cell === "" ? Number.NaN : Number(cell))));
  const readable = names.length > 0 && cells.length > 0 && /^[\x20-\x7e]+$/.test(lines[0] as string);
  const columns = readable
    ? names.map((_, i) => Float64Array.from(cells, (row) => row[i] ?? Number.NaN))
    : [];
  const channels: Channel[] = columns.map((column, i) => ({
    name: names[i] as string,
    ...(stated[names[i] as string] === undefined
      ? (kindsByName[(names[i] as string).replace(/\d$/, "")] ?? other)
      : kindsByName["PLETH"]!),
    unit: "",
    rate: hertz(rate),
    start: seconds(0),
    samples: column.length,
    because: `column name "${names[i]}"`,
  }));
  const recording: Recording = {
    format: "csv",
    channels,
    startedAt: null,
    annotations: [],
    problems: readable
      ? []
      : [{ code: "not-a-table", weight: "fatal", where: name, expected: "a table", found: "something else" }],
    async *blocks(which = channels.map((_, i) => i)) {
      for (const channel of which) {
        for (let first = 0; first < columns[channel]!.length; first += 250) {
          yield { channel, first: sampleIndex(first), values: columns[channel]!.slice(first, first + 250) };
        }
      }
    },
  };
  tables.set(recording, { recording, columns });
  return recording;
}

function findBeats(channel: Channel, values: Float64Array): Beat[] {
  const sign = channel.polarity === "systole-down" ? -1 : 1;
  const up = values.map((value) => sign * value);
  const real = up.filter(Number.isFinite);
  const low = Math.min(...real);
  const high = Math.max(...real);
  const half = (low + high) / 2;
  const beats: Beat[] = [];
  if (!(high - low > 10)) return beats;
  for (let i = 1; i + 1 < up.length; i++) {
    if (!(up[i]! > half && up[i]! >= up[i - 1]! && up[i]! > up[i + 1]!)) continue;
    if (beats.length > 0 && i / channel.rate - beats.at(-1)!.peak < 0.4) continue;
    const light = channel.kind === "raw-light";
    beats.push({
      foot: seconds(Math.max(0, i / channel.rate - 0.15)),
      peak: seconds(i / channel.rate),
      notch: null,
      amplitude: high - low,
      perfusionIndex: light ? (((100 * (high - low)) / Math.abs(values[i]!)) as Percent) : null,
    });
  }
  return beats;
}

function gradeOf(values: Float64Array, beats: number): CaptureGrade {
  if (values.some(Number.isNaN)) return "off";
  if (values.some((value) => Math.abs(value) > 1e6)) return "unreadable";
  return beats >= 3 ? "solid" : "none";
}

function readTable(recording: Recording, at: number, span: Span): ChannelReading {
  const channel = recording.channels[at]!;
  const values = tables.get(recording)!.columns[at]!;
  const from = span.from ?? 0;
  const to = Math.min(span.to ?? Number.POSITIVE_INFINITY, values.length / channel.rate);
  const beats = findBeats(channel, values).filter((beat) => beat.peak >= from && beat.peak < to);
  const windows: Window[] = [];
  for (let start = from; start < to; start += 5) {
    const end = Math.min(to, start + 5);
    const inside = beats.filter((beat) => beat.peak >= start && beat.peak < end);
    const part = values.subarray(Math.round(start * channel.rate), Math.round(end * channel.rate));
    const capture = gradeOf(part, inside.length);
    const solid = capture === "solid";
    windows.push({
      from: seconds(start),
      to: seconds(end),
      capture,
      reasons: solid ? [] : [{ code: "too-few-beats", value: inside.length, unit: "{beats}", limit: 3 }],
      pulseRate: solid ? perMinute((60 * inside.length) / (end - start)) : null,
      perfusionIndex: solid ? (inside[0]?.perfusionIndex ?? null) : null,
    });
  }
  const firstBad = windows.findIndex((window) => window.capture === "none");
  const losses =
    firstBad > 0
      ? [
          {
            from: windows[firstBad]!.from,
            seen: seconds(windows[firstBad]!.from + 3),
            back: null,
            backSeen: null,
          },
        ]
      : [];
  return { beats, windows, losses, heart: null, problems: recording.problems };
}

export const standIn: Engine = {
  async open(source, _folder, options) {
    const bytes = await source.read(0, source.size);
    return openTable(
      source.name,
      Buffer.from(bytes).toString("latin1"),
      options.rate ?? 50,
      options.kinds ?? {},
    );
  },
  async read(recording, channel, span, progress) {
    progress(0.5);
    return readTable(recording, channel, span);
  },
  async compare(sound, suspect, context) {
    const sides = [sound, suspect].map((side: SideSource) => {
      const read = readTable(side.recording, side.channel, side.span);
      const channel = side.recording.channels[side.channel]!;
      const last = read.windows.at(-1)!.to;
      const reading = takeReading({
        site: side.site,
        channel,
        from: read.windows[0]!.from,
        to: last,
        windows: read.windows,
        beats: read.beats,
        presence: null,
        level: null,
        rWaves: null,
        shape: null,
        saturation: null,
        declared: side.declared,
      });
      return { ...read, reading };
    });
    const [one, other] = sides as [(typeof sides)[0], (typeof sides)[0]];
    return {
      sound: one.reading,
      suspect: other.reading,
      comparison: compareSides(one.reading, other.reading, context),
      soundWindows: one.windows,
      suspectWindows: other.windows,
      problems: [],
    };
  },
};
