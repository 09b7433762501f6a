/**
 * Time-stamped Annotations Lists: how EDF+ keeps notes, and in EDF+D the time of each record,
 * inside a signal of its own.
 *
 * @see EDF+ specification, sections 2.2.2 and 2.2.4
 */
import { strFromU8 } from "fflate";

export interface Tal {
  /** Seconds after the header's start time, as written. */
  readonly onset: number;
  readonly duration: number | null;
  /** Empty texts left out. */
  readonly texts: readonly string[];
}

export interface TalRead {
  /** Seconds; the first TAL of the first annotation signal keeps the record's time. `null` when unreadable. */
  readonly onset: number | null;
  readonly tals: readonly Tal[];
  /** The first byte run that is no TAL, for a person; `null` when all are well formed. */
  readonly damaged: string | null;
}

const textEnd = 0x14;
const durationSign = 0x15;
/** Beyond this a time stamp is damage: 100 years in seconds. */
const latest = 100 * 366 * 86_400;

/** Reads all lists of one annotation signal of one record. */
export function readTals(bytes: Uint8Array): TalRead {
  const tals: Tal[] = [];
  let onset: number | null = null;
  let damaged: string | null = null;
  let at = 0;
  let first = true;
  while (at < bytes.length) {
    if (bytes[at] === 0) {
      // Unused bytes follow each list and are zero; the record's time can only stand at the very start.
      first = false;
      at += 1;
      continue;
    }
    const zero = bytes.indexOf(0, at);
    const end = zero < 0 ? bytes.length : zero;
    const tal = readTal(bytes.subarray(at, end));
    if (tal === null) {
      damaged ??= strFromU8(bytes.subarray(at, Math.min(end, at + 40)), true);
    } else {
      if (first) onset = tal.onset;
      if (tal.texts.length > 0) tals.push(tal);
    }
    first = false;
    at = end + 1;
  }
  return { onset, tals, damaged };
}

function readTal(bytes: Uint8Array): Tal | null {
  const stampEnd = bytes.indexOf(textEnd);
  if (stampEnd < 0 || bytes[bytes.length - 1] !== textEnd) return null;
  const sign = bytes.subarray(0, stampEnd).indexOf(durationSign);
  const onset = stamp(bytes.subarray(0, sign < 0 ? stampEnd : sign), /^[+-]\d+(\.\d*)?$/);
  if (onset === null) return null;
  let duration: number | null = null;
  if (sign >= 0) {
    duration = stamp(bytes.subarray(sign + 1, stampEnd), /^\d+(\.\d*)?$/);
    if (duration === null) return null;
  }
  const texts: string[] = [];
  let from = stampEnd + 1;
  while (from < bytes.length) {
    const to = bytes.indexOf(textEnd, from);
    const text = strFromU8(bytes.subarray(from, to)).trim();
    if (text !== "") texts.push(text);
    from = to + 1;
  }
  return { onset, duration, texts };
}

function stamp(bytes: Uint8Array, form: RegExp): number | null {
  if (bytes.length > 40) return null;
  const text = strFromU8(bytes, true);
  const value = form.test(text) ? Number(text) : Number.NaN;
  return Math.abs(value) < latest ? value : null;
}
