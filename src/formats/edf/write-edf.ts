/**
 * A recording as EDF+C: 16-bit samples in records of one second, with an annotation signal.
 * @see B. Kemp and J. Olivan, "European data format 'plus' (EDF+)", Clin Neurophysiol 2003;114:1755-61
 */

import type { Annotation } from "../../model/index.js";
import { encodeText } from "../encode-text.js";
import {
  checkedLength,
  type OutgoingChannel,
  type OutgoingFile,
  type OutgoingRecording,
  WriteError,
} from "../outgoing.js";

const lowest = -32768;
const steps = 65535;

interface Scale {
  readonly low: string;
  readonly high: string;
  readonly size: number;
}

/**
 * Samples keep their `step` where the channel's range spans fewer than 65 536 of them; a wider range is
 * divided into that many.
 * @throws {WriteError} `uneven-end` unless the recording lasts whole seconds; `bad-label`; see `checkedLength`
 */
export function writeEdf(recording: OutgoingRecording): OutgoingFile[] {
  const length = checkedLength(recording);
  const { rate, channels, name } = recording;
  if (length === 0 || length % rate !== 0) {
    throw new WriteError("uneven-end", `${length} samples at ${rate}/s are not whole seconds`);
  }
  for (const { label } of channels) {
    if (!/^[\x20-\x7e]{1,16}$/.test(label))
      throw new WriteError("bad-label", `"${label}" is not 1 to 16 ASCII characters`);
  }
  const records = length / rate;
  const marks = marksByRecord(recording.annotations, records);
  const markSamples = Math.ceil(Math.max(...marks.map((bytes) => bytes.length)) / 2);
  const scales = channels.map(scaleOf);
  const head = header(recording, records, scales, markSamples);
  return [{ name: `${name}.edf`, pieces: pieces(head, recording, scales, marks, markSamples) }];
}

function* pieces(
  head: Uint8Array,
  { channels, rate }: OutgoingRecording,
  scales: readonly Scale[],
  marks: readonly Uint8Array[],
  markSamples: number,
): Generator<Uint8Array> {
  yield head;
  for (const [record, mark] of marks.entries()) {
    const bytes = new Uint8Array(2 * (channels.length * rate + markSamples));
    const view = new DataView(bytes.buffer);
    let at = 0;
    for (const [c, { values }] of channels.entries()) {
      const { low, size } = scales[c] as Scale;
      for (let n = record * rate; n < (record + 1) * rate; n++) {
        const digital = Math.round(((values[n] as number) - Number(low)) / size);
        view.setInt16(at, lowest + Math.min(steps, Math.max(0, digital)), true);
        at += 2;
      }
    }
    bytes.set(mark, at);
    yield bytes;
  }
}

/** Physical range of a channel, as the eight characters that the header has room for. */
function scaleOf({ values, step }: OutgoingChannel): Scale {
  let low = values[0] as number;
  let high = low;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  const exact = Math.floor(low / step) * step;
  const fits = exact + steps * step >= high && isShort(exact) && isShort(exact + steps * step);
  const lowText = fits ? shorten(exact, Math.floor) : shorten(low, Math.floor);
  const highText = fits ? shorten(exact + steps * step, Math.ceil) : shorten(high, Math.ceil);
  const span = Number(highText) - Number(lowText);
  return span > 0
    ? { low: lowText, high: highText, size: span / steps }
    : { low: lowText, high: shorten(Number(lowText) + 1, Math.ceil), size: 1 / steps };
}

const isShort = (value: number) => Number(shorten(value, Math.round)) === value;

/** At most eight characters, rounded outwards by `round` where it must be rounded. */
function shorten(value: number, round: (x: number) => number): string {
  for (let decimals = 6; decimals >= 0; decimals--) {
    const unit = 10 ** decimals;
    const text = String(
      Number((round(value * unit - (round === Math.ceil ? 1e-9 : -1e-9)) / unit).toFixed(decimals)),
    );
    if (text.length <= 8 && !text.includes("e")) return text;
  }
  throw new WriteError("not-finite", `${value} is beyond what an EDF header holds`);
}

/** Time-stamped lists of each record: when it begins, then what is noted in it. */
function marksByRecord(annotations: readonly Annotation[], records: number): Uint8Array[] {
  const texts = Array.from({ length: records }, (_, record) => `+${record}\x14\x14\0`);
  for (const { time, duration, text } of [...annotations].sort((a, b) => a.time - b.time)) {
    const record = Math.min(records - 1, Math.max(0, Math.floor(time)));
    const lasts = duration === null ? "" : `\x15${Number(duration.toFixed(6))}`;
    // The separators of the list, and other control characters, may not stand in a text.
    const said = [...text].map((letter) => (letter < " " ? " " : letter)).join("");
    texts[record] += `+${Number(time.toFixed(6))}${lasts}\x14${said}\x14\0`;
  }
  return texts.map((text) => encodeText(text));
}

function header(
  { channels, rate, origin }: OutgoingRecording,
  records: number,
  scales: readonly Scale[],
  markSamples: number,
): Uint8Array {
  const count = channels.length + 1;
  const column = (width: number, ofChannel: (c: number) => string, ofMarks: string) =>
    channels.map((_, c) => ofChannel(c).slice(0, width).padEnd(width)).join("") + ofMarks.padEnd(width);
  const text = [
    "0".padEnd(8),
    "X X X X".padEnd(80),
    "Startdate X X X X".padEnd(80),
    "01.01.85",
    "00.00.00",
    String(256 * (count + 1)).padEnd(8),
    "EDF+C".padEnd(44),
    String(records).padEnd(8),
    "1".padEnd(8),
    String(count).padEnd(4),
    column(16, (c) => channels[c]?.label as string, "EDF Annotations"),
    column(80, (c) => channels[c]?.name as string, ""),
    column(8, (c) => channels[c]?.unit as string, ""),
    column(8, (c) => scales[c]?.low as string, "-1"),
    column(8, (c) => scales[c]?.high as string, "1"),
    column(8, () => String(lowest), String(lowest)),
    column(8, () => String(lowest + steps), String(lowest + steps)),
    column(80, () => origin, ""),
    column(8, () => String(rate), String(markSamples)),
    column(32, () => "", ""),
  ].join("");
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0) & 0x7f);
}
