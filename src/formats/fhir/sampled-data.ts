/** One SampledData element: what its fields say, each doubt told as a problem. */
import type { ProblemLog } from "../problem-log.js";
import { ucumUnit } from "../ucum-unit.js";
import { type Json, numberAt, objectAt, shownAt, textAt } from "./json.js";
import { countPoints } from "./points.js";

export interface SampledData {
  /** Samples per second. */
  readonly rate: number;
  /** value = point * factor + origin */
  readonly origin: number;
  /** Whether the origin was stated; without it the level is unknown. */
  readonly levelled: boolean;
  readonly factor: number;
  readonly unit: string;
  /** Points at each time, one after the other. */
  readonly dimensions: number;
  readonly data: string;
  /** Samples of each dimension. */
  readonly samples: number;
}

/** UCUM time units an R5 interval may come in, in seconds. */
const intervalUnits: Readonly<Record<string, number>> = { s: 1, ms: 1e-3, us: 1e-6, min: 60, h: 3600 };

const slowest = 1e-6;
const fastest = 1e7;
const mostDimensions = 256;

/**
 * @param rate the user's own, samples per second; overrides the file's
 * @returns `null` where no samples can be had, after a problem
 * @see FHIR R4 SampledData; FHIR R5 SampledData (`interval` and `intervalUnit` instead of `period`)
 */
export function readSampledData(
  json: Json,
  rate: number | undefined,
  where: string,
  log: ProblemLog,
): SampledData | null {
  const lost = (code: string, expected: string, key: string) => {
    log.add(code, "lost-part", where, expected, shownAt(json, key));
    return null;
  };
  const seconds = rate === undefined ? readInterval(json) : 1 / rate;
  if (seconds === null || !(1 / seconds <= fastest && 1 / seconds >= slowest)) {
    if (json["period"] !== undefined) return lost("period", "`period` in ms, above 0", "period");
    const interval = `${shownAt(json, "interval")} of ${shownAt(json, "intervalUnit")}`;
    log.add("period", "lost-part", where, "`period` in ms, or `interval` in a unit of time", interval);
    return null;
  }
  const factor = json["factor"] === undefined ? 1 : numberAt(json, "factor");
  if (factor === null || factor === 0) return lost("factor", "a number other than 0", "factor");
  const dimensions = json["dimensions"] === undefined ? 1 : numberAt(json, "dimensions");
  if (dimensions === null || !Number.isInteger(dimensions) || dimensions < 1 || dimensions > mostDimensions) {
    return lost("dimensions", `a whole number from 1 to ${mostDimensions}`, "dimensions");
  }
  if (json["dimensions"] === undefined)
    log.add("dimensions", "note", where, "`dimensions`", "nothing; 1 taken");
  if (json["codeMap"] !== undefined) return lost("code-map", "numbers, not codes", "codeMap");
  if (json["offsets"] !== undefined) return lost("uneven-times", "evenly spaced samples", "offsets");
  const data = json["data"];
  if (typeof data !== "string") return lost("no-data", "`data` with samples", "data");
  const originJson = objectAt(json, "origin");
  const origin = numberAt(originJson, "value");
  if (origin === null) {
    const found = `${shownAt(originJson, "value")}; 0 taken, the level is unknown`;
    log.add("origin", "lost-part", where, "`origin` with a value", found);
  }
  return {
    rate: rate ?? 1 / seconds,
    origin: origin ?? 0,
    levelled: origin !== null,
    factor,
    unit: ucumUnit(textAt(originJson, "code") ?? textAt(originJson, "unit") ?? ""),
    dimensions,
    data,
    samples: countSamples(json, data, dimensions, where, log),
  };
}

/** Seconds between samples. */
function readInterval(json: Json): number | null {
  const period = numberAt(json, "period");
  if (period !== null) return period > 0 ? period / 1000 : null;
  const interval = numberAt(json, "interval");
  const unit = intervalUnits[textAt(json, "intervalUnit") ?? ""];
  return interval !== null && interval > 0 && unit !== undefined ? interval * unit : null;
}

function countSamples(json: Json, data: string, dimensions: number, where: string, log: ProblemLog): number {
  const count = countPoints(data);
  const note = (code: string, times: number, expected: string, found: string) => {
    if (times > 0) log.add(code, "note", where, expected, `${times} times ${found}; missing samples`);
  };
  note("error-mark", count.errors, "values", '"E"');
  note("above-limit", count.above, `values up to the upper limit ${shownAt(json, "upperLimit")}`, '"U"');
  note("below-limit", count.below, `values down to the lower limit ${shownAt(json, "lowerLimit")}`, '"L"');
  if (count.bad > 0) {
    const found = `${count.bad} others, the first at point ${count.firstBad + 1}; missing samples`;
    log.add("bad-sample", "lost-part", where, 'numbers, "E", "U" or "L"', found);
  }
  const samples = Math.floor(count.points / dimensions);
  if (count.points === 0) log.add("no-data", "lost-part", where, "`data` with samples", "no samples");
  if (samples * dimensions !== count.points) {
    log.add(
      "points-uneven",
      "lost-part",
      where,
      `a multiple of ${dimensions} points`,
      `${count.points}; the rest left out`,
    );
  }
  return samples;
}
