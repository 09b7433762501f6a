/**
 * Which column of a table is its clock, and what its numbers count. A column is a clock if its name says
 * so, or if its cells are times; then its numbers must move forward.
 *
 * The unit of a clock of plain numbers, in this order: the unit or name written (`time_s`, `Time (ms)`, `t_us`); the size
 * of the numbers, if they count from 1970; the steps, if only one unit makes 15 to 2000 rows a second of them. The
 * last is an assumption and told as one. Steps that fit no unit, or are near 1, leave the rate unknown.
 */

import { type StampForm, stampForm } from "./clock-stamp.js";
import { createCounterUnwrap } from "./clock-wrap.js";

export interface ClockColumn {
  readonly column: number;
  readonly form: StampForm;
  /** Seconds per unit; 1 unless `form` is `number`. `null`: cannot be told. */
  readonly scale: number | null;
  /** Whether the unit was taken from the steps. */
  readonly assumed: boolean;
  /** Numbers count from 1970-01-01. */
  readonly epoch: boolean;
}

export interface CandidateColumn {
  readonly name: string;
  readonly unit: string;
  readonly cells: readonly string[];
  /** The cells as numbers, NaN where they are none. */
  readonly values: readonly number[];
}

const clockWords =
  /(^|\s)(time|timer|timestamps?|ts|t|elapsed|clock|date ?time|seconds?|secs?|millis|micros|milliseconds?|microseconds?|msecs?|usecs?)(\s|$)/;
const notClock =
  /\b(transit|arrival|delay|refill|interval|duration|ejection|rise|fall|constant|zone|code|status)\b/;

const scales: Readonly<Record<string, number>> = {
  s: 1,
  sec: 1,
  secs: 1,
  second: 1,
  seconds: 1,
  ms: 1e-3,
  msec: 1e-3,
  msecs: 1e-3,
  millis: 1e-3,
  millisecond: 1e-3,
  milliseconds: 1e-3,
  us: 1e-6,
  usec: 1e-6,
  usecs: 1e-6,
  micros: 1e-6,
  microsecond: 1e-6,
  microseconds: 1e-6,
  ns: 1e-9,
  nanos: 1e-9,
  nanoseconds: 1e-9,
  min: 60,
  mins: 60,
  minutes: 60,
  h: 3600,
  hours: 3600,
};

/** `null` if the table has no clock. */
export function findClock(columns: readonly CandidateColumn[]): ClockColumn | null {
  for (const [column, { cells }] of columns.entries()) {
    const filled = cells.filter((cell) => cell !== "");
    const forms = filled.slice(0, 50).map(stampForm);
    const form = forms[0];
    if (form != null && forms.filter((one) => one === form).length > 0.8 * forms.length) {
      return { column, form, scale: 1, assumed: false, epoch: false };
    }
  }
  for (const [column, candidate] of columns.entries()) {
    const words = asWords(candidate.name);
    if (!clockWords.test(words) || notClock.test(words)) continue;
    const counter = createCounterUnwrap();
    const unwrapped = { ...candidate, values: candidate.values.map((value) => counter.next(value)) };
    if (!movesForward(unwrapped.values)) continue;
    return { column, form: "number", ...unitOf(unwrapped, words) };
  }
  return columns[0] === undefined || columns.length < 2 ? null : unnamedClock(columns[0]);
}

/** The first column of a table without header, if it rises by even steps that are no mere counting. */
function unnamedClock(first: CandidateColumn): ClockColumn | null {
  if (!/^column 1$/.test(first.name)) return null;
  const { values } = first;
  const steps = values.slice(1).map((value, i) => value - values[i]!);
  if (steps.length < 8 || !steps.every((step) => step > 0)) return null;
  const sorted = steps.toSorted((a, b) => a - b);
  const middle = sorted[sorted.length >> 1]!;
  if (steps.filter((step) => Math.abs(step - middle) < middle / 2).length < 0.95 * steps.length) return null;
  const unit = unitOf(first, "");
  return unit.scale === null ? null : { column: 0, form: "number", ...unit };
}

function movesForward(values: readonly number[]): boolean {
  const good = values.filter((value) => !Number.isNaN(value));
  if (good.length === 0 || good.length < values.length / 2) return false;
  let back = 0;
  for (let i = 1; i < good.length; i++) if (good[i]! < good[i - 1]!) back++;
  return back <= 0.2 * good.length;
}

function unitOf(candidate: CandidateColumn, words: string): Pick<ClockColumn, "scale" | "assumed" | "epoch"> {
  const good = candidate.values.filter((value) => !Number.isNaN(value));
  const first = good[0] ?? Number.NaN;
  const named = scales[candidate.unit.toLowerCase().replace(/^[µμ]/, "u")] ?? scaleInWords(words);
  // From 2000 to 2100 in each unit.
  const sinceEpoch = [1, 1e-3, 1e-6, 1e-9].find(
    (scale) => first * scale >= 946_684_800 && first * scale < 4_102_444_800,
  );
  if (named !== null && named !== undefined)
    return { scale: named, assumed: false, epoch: sinceEpoch === named };
  if (sinceEpoch !== undefined) return { scale: sinceEpoch, assumed: false, epoch: true };
  const step = ((good.at(-1) ?? Number.NaN) - first) / Math.max(1, good.length - 1);
  const fitting = [1, 1e-3, 1e-6].filter((scale) => step * scale >= 0.0005 && step * scale <= 0.067);
  const nearOne = step > 0.8 && step < 1.25;
  return {
    scale: fitting.length === 1 && !nearOne ? fitting[0]! : null,
    assumed: !(step < 0.067),
    epoch: false,
  };
}

function scaleInWords(words: string): number | null {
  for (const word of words.split(" ").reverse()) {
    const scale = Object.hasOwn(scales, word) ? scales[word] : undefined;
    if (scale !== undefined && word !== "h" && word !== "min") return scale;
  }
  return null;
}

function asWords(name: string): string {
  return name
    .slice(0, 100)
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .toLowerCase()
    .replace(/[µμ]/g, "u")
    .replace(/[^a-z0-9]+/g, " ")
    .trim();
}
