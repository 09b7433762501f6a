/** A recording as a table: time, one column a channel, and a column of notes. RFC 4180, UTF-8, LF. */
import { encodeText } from "../encode-text.js";
import { checkedLength, type OutgoingFile, type OutgoingRecording } from "../outgoing.js";

const rowsAPiece = 4096;

/** @throws {WriteError} */
export function writeCsv(recording: OutgoingRecording): OutgoingFile[] {
  const length = checkedLength(recording);
  return [{ name: `${recording.name}.csv`, pieces: pieces(recording, length) }];
}

function* pieces(recording: OutgoingRecording, length: number): Generator<Uint8Array> {
  const { rate, channels, annotations } = recording;
  const notes = notesByRow(recording, length);
  const withNotes = annotations.length > 0;
  const digits = channels.map(({ step }) => decimalsFor(step));
  const timeDigits = decimalsFor(1 / rate / 100);
  const head = [
    "time_s",
    ...channels.map(({ name, unit }) => `${name} (${unit})`),
    ...(withNotes ? ["note"] : []),
  ];
  yield encodeText(`# ${recording.origin}\n${head.map(cell).join(",")}\n`);
  for (let from = 0; from < length; from += rowsAPiece) {
    let text = "";
    for (let n = from; n < Math.min(length, from + rowsAPiece); n++) {
      text += short(n / rate, timeDigits);
      for (let c = 0; c < channels.length; c++) {
        text += `,${short(channels[c]?.values[n] as number, digits[c] as number)}`;
      }
      text += withNotes ? `,${cell(notes.get(n) ?? "")}\n` : "\n";
    }
    yield encodeText(text);
  }
}

/** Text of each row that has a note; several on one row are joined. */
function notesByRow({ annotations, rate }: OutgoingRecording, length: number): Map<number, string> {
  const rows = new Map<number, string>();
  for (const { time, text } of annotations) {
    const row = Math.min(length - 1, Math.max(0, Math.round(time * rate)));
    const before = rows.get(row);
    rows.set(row, before === undefined ? text : `${before}; ${text}`);
  }
  return rows;
}

const decimalsFor = (step: number) => Math.min(9, Math.max(0, Math.ceil(-Math.log10(step) - 1e-9)));

/** Fixed decimals without trailing zeros. */
function short(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return decimals === 0 ? text : text.replace(/\.?0+$/, "");
}

const cell = (text: string) => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
