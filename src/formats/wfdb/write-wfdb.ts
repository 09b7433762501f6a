/**
 * A recording as a WFDB record: header, one signal file in format 32, and its notes as an annotation file.
 * @see WFDB Applications Guide, header(5), signal(5), annot(5)
 */

import type { Annotation } from "../../model/index.js";
import { encodeText } from "../encode-text.js";
import {
  checkedLength,
  type OutgoingChannel,
  type OutgoingFile,
  type OutgoingRecording,
} from "../outgoing.js";

const rowsAPiece = 4096;
const skip = 59;
const auxiliary = 63;
const note = 22;
const largestInterval = 1023;

/** @throws {WriteError} */
export function writeWfdb(recording: OutgoingRecording): OutgoingFile[] {
  const length = checkedLength(recording);
  const { name, annotations } = recording;
  const files: OutgoingFile[] = [
    { name: `${name}.hea`, pieces: [encodeText(header(recording, length))] },
    { name: `${name}.dat`, pieces: samples(recording.channels, length) },
  ];
  if (annotations.length > 0)
    files.push({ name: `${name}.atr`, pieces: [notes(annotations, recording.rate)] });
  return files;
}

function digital(channel: OutgoingChannel, n: number): number {
  return Math.round((channel.values[n] as number) / channel.step);
}

function header({ name, rate, channels, origin }: OutgoingRecording, length: number): string {
  const lines = channels.map((channel) => {
    let sum = 0;
    for (let n = 0; n < length; n++) sum = (sum + digital(channel, n)) & 0xffff;
    const checksum = (sum << 16) >> 16;
    const gain = Number((1 / channel.step).toPrecision(12));
    const first = length === 0 ? 0 : digital(channel, 0);
    return `${name}.dat 32 ${gain}(0)/${channel.unit} 32 0 ${first} ${checksum} 0 ${channel.name}`;
  });
  return `${[`${name} ${channels.length} ${rate} ${length}`, ...lines, `# ${origin}`].join("\n")}\n`;
}

function* samples(channels: readonly OutgoingChannel[], length: number): Generator<Uint8Array> {
  for (let from = 0; from < length; from += rowsAPiece) {
    const rows = Math.min(rowsAPiece, length - from);
    const bytes = new DataView(new ArrayBuffer(rows * channels.length * 4));
    let at = 0;
    for (let n = from; n < from + rows; n++) {
      for (const channel of channels) {
        bytes.setInt32(at, digital(channel, n), true);
        at += 4;
      }
    }
    yield new Uint8Array(bytes.buffer);
  }
}

/** Words of 6 bits of type and 10 of time since the one before; longer waits and texts have words of their own. */
function notes(annotations: readonly Annotation[], rate: number): Uint8Array {
  const bytes: number[] = [];
  const word = (type: number, value: number) => bytes.push(value & 0xff, (type << 2) | (value >> 8));
  let last = 0;
  for (const { time, text } of [...annotations].sort((a, b) => a.time - b.time)) {
    const at = Math.max(0, Math.round(time * rate));
    let wait = at - last;
    if (wait > largestInterval) {
      word(skip, 0);
      // High half first, each half with its low byte first.
      bytes.push((wait >> 16) & 0xff, (wait >> 24) & 0xff, wait & 0xff, (wait >> 8) & 0xff);
      wait = 0;
    }
    word(note, wait);
    const said = encodeText(text).subarray(0, 255);
    word(auxiliary, said.length);
    bytes.push(...said, ...(said.length % 2 === 1 ? [0] : []));
    last = at;
  }
  word(0, 0);
  return Uint8Array.from(bytes);
}
