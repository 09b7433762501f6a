/** When each sample was taken: as stated, by the time variable, by the rate variable; else unknown. */
import { excerpt } from "../../model/index.js";
import { fitClock, type RowClock, steadyClock } from "../clock-fit.js";
import { type ClockHabit, clockHabit, createClockTrack } from "../clock-track.js";
import type { ProblemLog } from "../problem-log.js";
import type { Clock, Columns } from "./columns.js";
import { openNumbers } from "./numbers.js";

export interface Timing {
  readonly clock: RowClock;
  /** Numbers of samples to leave out, ascending. */
  readonly repeats: readonly number[];
}

const slowest = 1e-4;
const fastest = 1e6;
const runLength = 4096;

/** @returns `null` after a fatal problem */
export async function timingOf(
  columns: Columns,
  stated: number | undefined,
  file: string,
  log: ProblemLog,
): Promise<Timing | null> {
  const { clock, rate } = columns;
  const steady = (value: number): Timing => {
    const all = steadyClock(value);
    return { clock: { ...all, places: columns.length }, repeats: [] };
  };
  if (stated !== undefined) {
    if (clock !== null || rate !== null) {
      const found = `a rate of ${stated} per second stated, so ${clock?.series.name ?? rate?.name} is not used`;
      log.add("clock-set-aside", "note", file, "one source of time", excerpt(found, 120));
    }
    return steady(stated);
  }
  if (clock !== null && clock.column.scale !== null) {
    const timed = await clockTiming(clock, columns.length, file, log);
    if (timed !== null && rate !== null && Math.abs(timed.clock.rate / rate.value - 1) > 0.01) {
      const found = `${rate.value} in ${excerpt(rate.name)}; the times are taken`;
      log.add("rate-differs", "note", file, `${timed.clock.rate} per second by the times`, found);
    }
    if (timed !== null) return timed;
  }
  if (rate !== null && rate.value >= slowest && rate.value <= fastest) return steady(rate.value);
  const expected = "a time variable (t, time) or a rate variable (fs, rate); state the rate with --rate";
  const found =
    rate !== null
      ? `${excerpt(rate.name)} = ${rate.value}`
      : clock !== null
        ? `${excerpt(clock.series.name)}, whose unit can't be told`
        : "neither";
  log.add("rate-unknown", "fatal", file, expected, found);
  return null;
}

/** @returns `null` after a note if the times say nothing */
async function clockTiming(
  clock: Clock,
  length: number,
  file: string,
  log: ProblemLog,
): Promise<Timing | null> {
  const { series, column, printed } = clock;
  const where = `${file}, variable ${excerpt(series.name)}`;
  const scale = column.scale ?? 1;
  if (column.assumed) {
    const unit = scale === 1 ? "seconds" : scale === 1e-3 ? "milliseconds" : "microseconds";
    log.add("time-unit-assumed", "note", where, "a unit of time", `none; ${unit} taken, by the steps`);
  }
  const numbers = await openNumbers(series.variable, 0);
  const run = new Float64Array(runLength);
  let track: ReturnType<typeof createClockTrack> | null = null;
  let habit: ClockHabit | null = null;
  let origin = Number.NaN;
  for (let at = 0; at < length; at += run.length) {
    const part = run.subarray(0, Math.min(run.length, length - at));
    await numbers.fill(part);
    for (let n = 0; n < part.length; n++) {
      const value = part[n] as number;
      if (Number.isNaN(origin) && Number.isFinite(value)) origin = value;
      part[n] = Number.isFinite(value) ? (value - origin) * scale : Number.NaN;
    }
    if (track === null) {
      habit = clockHabit([...part], printed * scale);
      if (habit === null) break;
      track = createClockTrack(habit);
    }
    for (let n = 0; n < part.length; n++) track.next(part[n] as number, printed * scale, at + n + 1);
  }
  if (track === null || habit === null) {
    log.add("time-unusable", "note", where, "rising times", "times that don't move forward");
    return null;
  }
  const shape = track.finish();
  const fitted = fitClock(shape, habit);
  if (!(fitted.rate >= slowest && fitted.rate <= fastest)) {
    log.add("time-unusable", "note", where, `${slowest} to ${fastest} samples per second`, `${fitted.rate}`);
    return null;
  }
  const missing = shape.pieces.slice(1).reduce((sum, piece) => sum + piece.missing, 0);
  if (!fitted.even) {
    const found = `times up to ${(1000 * fitted.farthest).toPrecision(3)} ms off one rate; values put on an even grid of ${fitted.rate} per second along them`;
    log.add("clock-uneven", "note", where, "even times", found);
  }
  if (shape.pieces.length > 1 && !fitted.joined) {
    const found = `${shape.pieces.length - 1} gaps, ${missing.toPrecision(4)} s missing in all`;
    log.add("gap", "note", `${where}, sample ${shape.pieces[1]?.line ?? 0}`, "samples without gaps", found);
  }
  if (fitted.between) {
    const found = "one that is not; values after it were read between samples";
    log.add("gap-off-grid", "note", where, "gaps of whole intervals", found);
  }
  if (fitted.joined)
    log.add("clock-holes", "note", where, "times without gaps", "many small holes, taken as an uneven clock");
  if (fitted.cutRow !== null) {
    log.add(
      "gap-too-long",
      "lost-part",
      `${where}, sample ${fitted.cutRow + 1}`,
      "gaps of days at most",
      "the rest was left out",
    );
  }
  for (const [code, weight, fault, what] of [
    ["time-missing", "note", shape.faults.missing, "a time that is no number; taken in its order"],
    ["time-backwards", "note", shape.faults.backwards, "a time before the one before, not used"],
    ["time-outlier", "note", shape.faults.outlier, "a time far from its neighbours, not used"],
    ["time-doubled", "note", shape.faults.doubled, "the same time again, sample left out"],
    [
      "clock-restarted",
      "lost-part",
      shape.faults.restarted,
      "a clock that fell back; the pause is not known",
    ],
  ] as const) {
    if (fault.count > 0)
      log.add(
        code,
        weight,
        `${where}, sample ${fault.line}`,
        "rising times",
        `${what}, ${fault.count} in all`,
      );
  }
  return { clock: fitted, repeats: shape.repeats };
}
