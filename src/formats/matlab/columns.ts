/**
 * Which variables hold samples, which one the time, which one the rate. The longest side of a matrix
 * is time: each column of a tall one, each row of a wide one, is a series.
 */
import { excerpt } from "../../model/index.js";
import { type ClockColumn, findClock } from "../clock-column.js";
import type { ProblemLog } from "../problem-log.js";
import { openNumbers } from "./numbers.js";
import type { Variable } from "./variable.js";

/** One channel's place. */
export interface Series {
  readonly name: string;
  readonly variable: Variable;
  /** First number, and numbers from one sample to the next. */
  readonly first: number;
  readonly step: number;
}

export interface Clock {
  readonly series: Series;
  readonly column: ClockColumn;
  /** How finely the times are written, in the clock's own units. */
  readonly printed: number;
}

export interface Columns {
  readonly series: readonly Series[];
  readonly length: number;
  readonly clock: Clock | null;
  /** Samples per second by a variable of one number. */
  readonly rate: { readonly name: string; readonly value: number } | null;
}

const mostSeries = 256;
/** A matrix with more than this both ways holds no series. */
const mostAcross = 4096;
/** Missing samples of all series that are filled in: more than that is a damaged size. */
const mostMissing = 2 ** 26;
const earlyTimes = 4096;
const rateNames =
  /^(fs|f_?samp|rate|srate|sfreq|samp(le|ling)?_?(rate|freq(uency)?)|freq(uency)?|frame_?rate)(_?hz)?$/i;

/** @returns `null` after a fatal problem */
export async function findColumns(
  variables: readonly Variable[],
  file: string,
  log: ProblemLog,
): Promise<Columns | null> {
  const long = variables.filter((one) => Math.max(one.rows, one.columns) > 1);
  const stated = long.reduce((most, one) => Math.max(most, one.rows, one.columns), 0);
  if (stated === 0) {
    const names = variables.map(({ name }) => name).slice(0, 8);
    const found = names.length === 0 ? "none" : `only single numbers: ${excerpt(names.join(", "))}`;
    log.add("no-signals", "fatal", file, "a vector or matrix of numbers", found);
    return null;
  }
  const series: Series[] = [];
  for (const variable of long) {
    if (Math.min(variable.rows, variable.columns) > mostAcross) {
      const found = `${variable.rows} by ${variable.columns}; left out`;
      const where = `${file}, variable ${excerpt(variable.name)}`;
      log.add("too-many-columns", "lost-part", where, `at most ${mostAcross} columns or rows`, found);
    } else if (Math.max(variable.rows, variable.columns) === stated) series.push(...seriesOf(variable));
    else {
      const found = `${variable.rows} by ${variable.columns}; left out`;
      log.add(
        "length-differs",
        "note",
        `${file}, variable ${excerpt(variable.name)}`,
        `${stated} samples`,
        found,
      );
    }
  }
  if (series.length > mostSeries) {
    log.add(
      "too-many-columns",
      "lost-part",
      file,
      `at most ${mostSeries} channels`,
      `${series.length}; the rest left out`,
    );
    series.length = mostSeries;
  }
  if (series.length === 0) {
    log.add("no-signals", "fatal", file, "a vector or matrix of numbers", "none that can be channels");
    return null;
  }
  const length = believedLength(series, stated, file, log);
  if (length === 0) return null;
  const clock = await clockOf(series, length);
  return {
    series: series.filter((one) => one !== clock?.series),
    length,
    clock,
    rate: await rateOf(variables),
  };
}

function seriesOf(variable: Variable): Series[] {
  const { name, rows, columns } = variable;
  const wide = columns > rows;
  const count = Math.min(wide ? rows : columns, mostSeries + 1);
  return Array.from({ length: count }, (_, n) => ({
    name: count === 1 ? name : `${name} ${n + 1}`,
    variable,
    first: wide ? n : n * rows,
    step: wide ? rows : 1,
  }));
}

/** Samples of a series that the file holds. */
export function heldSamples({ variable, first, step }: Series): number {
  return Math.max(0, Math.ceil((variable.held - first) / step));
}

/** As stated, unless far more than the file holds; 0 after a fatal problem. */
function believedLength(series: readonly Series[], stated: number, file: string, log: ProblemLog): number {
  const held = series.reduce((most, one) => Math.max(most, heldSamples(one)), 0);
  if ((stated - held) * series.length <= mostMissing) return stated;
  const found = `${held} in the file; the rest is not filled in`;
  log.add("size-absurd", held === 0 ? "fatal" : "lost-part", file, `${stated} samples as stated`, found);
  return held;
}

async function clockOf(series: readonly Series[], length: number): Promise<Clock | null> {
  const vectors = series.filter(({ variable }) => Math.min(variable.rows, variable.columns) === 1);
  const candidates = [];
  for (const { name, variable } of vectors) {
    const early = new Float64Array(Math.min(earlyTimes, length));
    await (await openNumbers(variable, 0)).fill(early);
    candidates.push({ name, unit: "", cells: [], values: [...early] });
  }
  const column = findClock(candidates);
  const found = column === null ? undefined : vectors[column.column];
  const values = column === null ? undefined : candidates[column.column]?.values;
  if (column === null || found === undefined || values === undefined) return null;
  return { series: found, column, printed: printedStep(values) };
}

/** Numbers of a clock are rounded to a decimal place more often than not: the coarsest that fits the first of them. */
function printedStep(values: readonly number[]): number {
  for (let digits = 0; digits <= 9; digits++) {
    const scale = 10 ** digits;
    const fits = (value: number) => {
      const scaled = value * scale;
      return Number.isNaN(value) || Math.abs(scaled - Math.round(scaled)) <= 1e-12 * Math.abs(scaled) + 1e-9;
    };
    if (values.every(fits)) return 1 / scale;
  }
  return 1e-9;
}

async function rateOf(variables: readonly Variable[]): Promise<Columns["rate"]> {
  for (const variable of variables) {
    if (variable.rows * variable.columns !== 1 || !rateNames.test(variable.name)) continue;
    const value = new Float64Array(1);
    await (await openNumbers(variable, 0)).fill(value);
    return { name: variable.name, value: value[0] as number };
  }
  return null;
}
