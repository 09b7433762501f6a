/**
 * The lines of a WFDB header, each taken apart by itself. What the lines mean together is `header.ts`.
 *
 * @see "WFDB Applications Guide", header(5)
 */

/** First line: what holds for the whole record. */
export interface RecordLine {
  readonly name: string;
  /** `null` in a record of one piece. */
  readonly segments: number | null;
  readonly signals: number;
  /** Frames per second as written; `null` when the field is absent, NaN when it is not a number. */
  readonly rate: number | null;
  /** Ticks per second of the recorder's own counter, and its value at sample 0. */
  readonly counterRate: number | null;
  readonly counterBase: number;
  /** Frames; `null` when absent or 0, NaN when it is not a whole number. */
  readonly frames: number | null;
  readonly time: string | null;
  readonly date: string | null;
}

/** One signal. Fields left out have the value the format gives them. */
export interface SignalLine {
  readonly file: string;
  readonly format: number;
  readonly samplesPerFrame: number;
  /** Frames that lie before sample 0. */
  readonly skew: number;
  /** Bytes before the first sample. */
  readonly offset: number;
  /** Stored steps per physical unit; `null` where it is absent, 0 or unreadable: uncalibrated. */
  readonly gain: number | null;
  /** Stored value of physical zero. */
  readonly baseline: number;
  /** As written; `null` when absent. */
  readonly unit: string | null;
  readonly resolution: number | null;
  readonly zero: number;
  readonly initial: number;
  /** Sum of all stored values, 16 bit; `null` when absent. */
  readonly checksum: number | null;
  readonly description: string | null;
  /** Text where a number was due; `null` if all was well. */
  readonly misread: string | null;
}

export interface SegmentLine {
  /** `~` for a stretch in which nothing was recorded. */
  readonly name: string;
  readonly frames: number;
}

const decimal = /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i;
const whole = /^[+-]?\d{1,15}$/;

function number(text: string | undefined): number {
  return text !== undefined && decimal.test(text) ? Number(text) : Number.NaN;
}

/** `null` when there is no name followed by a number of signals. */
export function parseRecordLine(line: string): RecordLine | null {
  const match = /^(.+?)(?:\/(\d{1,9}))?\s+(\d{1,9})(?:\s+(.*))?$/.exec(line);
  if (match === null) return null;
  const [, name = "", segments, signals, rest = ""] = match;
  const [rateField, frames, time, date] = rest.split(/\s+/).filter((field) => field !== "");
  const rate = /^([^/(]+)(?:\/([^(]+))?(?:\(([^)]*)\))?$/.exec(rateField ?? "");
  const counterRate = number(rate?.[2]);
  const counterBase = number(rate?.[3]);
  return {
    name,
    segments: segments === undefined ? null : Number(segments),
    signals: Number(signals),
    rate: rateField === undefined ? null : number(rate?.[1]),
    counterRate: Number.isNaN(counterRate) ? null : counterRate,
    counterBase: Number.isNaN(counterBase) ? 0 : counterBase,
    frames: frames === undefined ? null : whole.test(frames) ? Number(frames) || null : Number.NaN,
    time: time ?? null,
    date: date ?? null,
  };
}

/** `null` when there is no file name followed by a format. A file name may hold blanks, though the format says it may not. */
export function parseSignalLine(line: string): SignalLine | null {
  const match = /^(.+?)\s+(\d{1,9})(?:x(\d{1,9}))?(?::(\d{1,9}))?(?:\+(\d{1,15}))?(?:\s+(.*))?$/.exec(line);
  if (match === null) return null;
  const [, file = "", format, samplesPerFrame, skew, offset, rest = ""] = match;
  const scale = /^(\S+)(?:\s+|$)/.exec(rest);
  const gain = /^([^(/]+)(?:\(([^)]*)\))?(?:\/(\S+))?$/.exec(scale?.[1] ?? "");
  const stated = number(gain?.[1]);
  const calibrated = Number.isFinite(stated) && stated !== 0;
  let misread = scale !== null && Number.isNaN(stated) ? scale[1]! : null;
  let after = misread !== null ? rest : rest.slice(scale?.[0].length ?? 0);
  // Resolution, zero, initial value, checksum, block size: left out from the right only. Then comes free text.
  const numbers: number[] = [];
  while (misread === null && numbers.length < 5 && after !== "") {
    const field = /^(\S+)(?:\s+|$)/.exec(after);
    if (field === null) break;
    if (!whole.test(field[1]!)) {
      misread = field[1]!;
      break;
    }
    numbers.push(Number(field[1]));
    after = after.slice(field[0].length);
  }
  const zero = numbers[1] ?? 0;
  const baseline = number(gain?.[2]);
  if (gain?.[2] !== undefined && Number.isNaN(baseline)) misread ??= gain[2] === "" ? "()" : gain[2];
  return {
    file,
    format: Number(format),
    samplesPerFrame: samplesPerFrame === undefined ? 1 : Number(samplesPerFrame),
    skew: Number(skew ?? 0),
    offset: Number(offset ?? 0),
    gain: calibrated ? stated : null,
    baseline: Number.isFinite(baseline) ? baseline : zero,
    unit: gain?.[3] ?? null,
    resolution: numbers[0] ?? null,
    zero,
    initial: numbers[2] ?? zero,
    checksum: numbers[3] ?? null,
    description: after.trim() === "" ? null : after.trim(),
    misread,
  };
}

export function parseSegmentLine(line: string): SegmentLine | null {
  const match = /^(.+?)\s+(\d{1,15})$/.exec(line);
  return match === null ? null : { name: match[1]!, frames: Number(match[2]) };
}

/** ISO 8601 without zone from `H:M:S[.fraction]` and `D/M/Y`; `null` if either is absent or impossible. */
export function startedAt(time: string | null, date: string | null): string | null {
  const clock = /^(\d{1,2}):(\d{1,2}):(\d{1,2})(\.\d{1,9})?$/.exec(time ?? "");
  const day = /^(\d{1,2})\/(\d{1,2})\/(\d{4})$/.exec(date ?? "");
  if (clock === null || day === null) return null;
  const [hour, minute, second] = [Number(clock[1]), Number(clock[2]), Number(clock[3])];
  const [date_, month, year] = [Number(day[1]), Number(day[2]), Number(day[3])];
  const at = new Date(Date.UTC(year, month - 1, date_));
  if (at.getUTCMonth() !== month - 1 || at.getUTCDate() !== date_ || year < 1000) return null;
  if (hour > 23 || minute > 59 || second > 59) return null;
  const two = (value: number) => String(value).padStart(2, "0");
  return `${year}-${two(month)}-${two(date_)}T${two(hour)}:${two(minute)}:${two(second)}${clock[4] ?? ""}`;
}
