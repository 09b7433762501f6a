/** Writes small EDF files for tests, faults included. */
import { signalFields } from "../header-fields.js";

export interface TestSignal {
  readonly label: string;
  readonly unit?: string;
  readonly physical?: readonly [string | number, string | number];
  readonly digital?: readonly [string | number, string | number];
  /** Cells in each record. */
  readonly samples: number | string;
}

export interface TestFile {
  readonly version?: string;
  readonly recording?: string;
  readonly date?: string;
  readonly time?: string;
  readonly headerBytes?: string | number;
  readonly reserved?: string;
  readonly records?: string | number;
  readonly duration?: string | number;
  readonly signalCount?: string | number;
  readonly signals: readonly TestSignal[];
  /** Stored numbers by record and signal, or text for an annotation signal; missing ones are 0. */
  readonly body: readonly (readonly (readonly number[] | string)[])[];
}

/** Latin-1 bytes of a text, padded with blanks or cut to a width. */
export function field(text: string | number, width: number): number[] {
  const padded = String(text).padEnd(width).slice(0, width);
  return [...padded].map((letter) => letter.charCodeAt(0));
}

export function edfFile(file: TestFile): Uint8Array {
  const { signals, body } = file;
  const head = [
    ...field(file.version ?? "0", 8),
    ...field("X X X X", 80),
    ...field(file.recording ?? "", 80),
    ...field(file.date ?? "02.03.24", 8),
    ...field(file.time ?? "10.20.30", 8),
    ...field(file.headerBytes ?? 256 * (signals.length + 1), 8),
    ...field(file.reserved ?? "", 44),
    ...field(file.records ?? body.length, 8),
    ...field(file.duration ?? 1, 8),
    ...field(file.signalCount ?? signals.length, 4),
  ];
  for (const [name, width] of signalFields) {
    for (const signal of signals) head.push(...field(signalField(signal, name), width));
  }
  const bytes = body.flatMap((record) => signals.flatMap((signal, n) => cells(record[n] ?? [], signal)));
  return Uint8Array.from([...head, ...bytes]);
}

function signalField(signal: TestSignal, name: (typeof signalFields)[number][0]): string | number {
  switch (name) {
    case "label":
      return signal.label;
    case "unit":
      return signal.unit ?? "";
    case "physicalMinimum":
      return signal.physical?.[0] ?? -1000;
    case "physicalMaximum":
      return signal.physical?.[1] ?? 1000;
    case "digitalMinimum":
      return signal.digital?.[0] ?? -1000;
    case "digitalMaximum":
      return signal.digital?.[1] ?? 1000;
    case "samplesPerRecord":
      return signal.samples;
    default:
      return "";
  }
}

function cells(content: readonly number[] | string, signal: TestSignal): number[] {
  const count = Number(signal.samples) || 0;
  const bytes = new Array<number>(2 * count).fill(0);
  if (typeof content === "string") {
    for (const [n, letter] of [...content].entries()) bytes[n] = letter.charCodeAt(0);
  } else {
    for (const [n, value] of content.entries()) {
      bytes[2 * n] = value & 255;
      bytes[2 * n + 1] = (value >> 8) & 255;
    }
  }
  return bytes;
}

/** An annotation signal's text: its record's time, then notes as written in EDF+. */
export function tals(time: string, ...notes: string[]): string {
  return [`${time}\x14\x14`, ...notes].map((tal) => `${tal}\0`).join("");
}
