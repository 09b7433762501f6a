/** From header lines to channels: names, kinds, units, rates. */
import { type Channel, excerpt, hertz, seconds } from "../../model/index.js";
import { inferKind, inferLoneKind } from "../channel-kind.js";
import type { ProblemLog } from "../problem-log.js";
import type { ReadOptions } from "../recording.js";
import { ucumUnit } from "../ucum-unit.js";
import type { WfdbHeader } from "./header.js";
import type { SignalLine } from "./header-fields.js";
import { defaultGain } from "./record-blocks.js";
import { signalName } from "./segment.js";

/** Rates outside this come from a damaged header; frames per second. */
const slowest = 1e-6;
const fastest = 1e7;
/** Where a header gives none, the format says 250. */
const defaultRate = 250;

/** Frames per second; `null` after a fatal problem. */
export function frameRate(
  header: WfdbHeader,
  file: string,
  options: ReadOptions | undefined,
  log: ProblemLog,
): number | null {
  const stated = options?.rate ?? header.record.rate;
  if (stated === null) {
    const found = `none; ${defaultRate} taken, as the format says`;
    log.add("rate-assumed", "note", file, "frames per second", found);
    return defaultRate;
  }
  if (stated >= slowest && stated <= fastest) return stated;
  const expected = `${slowest} to ${fastest} frames per second; state the rate with --rate`;
  log.add("rate-invalid", "fatal", file, expected, Number.isNaN(stated) ? "no number" : `${stated}`);
  return null;
}

/** @param frames of the record; `null` while unknown */
export function channelsOf(
  lines: readonly SignalLine[],
  rate: number,
  frames: number | null,
  file: string,
  options: ReadOptions | undefined,
  log: ProblemLog,
): Channel[] {
  return lines.map((line, n) => {
    const name = signalName(line, n);
    const where = `${file}, signal ${n} ${excerpt(name)}`;
    if (line.gain === null) {
      const found = `none; values are stored steps divided by ${defaultGain}, as the format says, without a unit`;
      log.add("uncalibrated", "note", where, "a gain", found);
    }
    // The format's unit where none is written is the millivolt; an uncalibrated signal has no unit at all.
    const unit = line.gain === null ? "" : ucumUnit(line.unit ?? "mV");
    const own = { name, unit: line.gain === null ? (line.unit ?? "") : unit };
    const fast = rate * line.samplesPerFrame;
    const { assumed, ...kind } =
      lines.length === 1 ? inferLoneKind(own, fast, options) : { ...inferKind(own, options), assumed: false };
    if (assumed) log.add("kind-assumed", "note", where, "a name that says what was recorded", kind.because);
    return {
      name,
      ...kind,
      unit,
      rate: hertz(fast),
      start: seconds(line.skew === 0 ? 0 : -line.skew / rate),
      samples: frames === null ? null : frames * line.samplesPerFrame,
    };
  });
}
