/** Where in the file each sample lies: settled once from the header and the file's size. */
import { type Channel, hertz, seconds } from "../../model/index.js";
import { inferKind } from "../channel-kind.js";
import type { ProblemLog } from "../problem-log.js";
import type { ByteSource, ReadOptions } from "../recording.js";
import { ucumUnit } from "../ucum-unit.js";
import type { EdfHeader, EdfSignal } from "./header.js";
import { fixedHeaderBytes, signalHeaderBytes } from "./header-fields.js";
import { type Scaling, scalingOf, unscaled } from "./scaling.js";

/** One signal's place in every record. */
export interface Place {
  /** Bytes from the start of the record. */
  readonly offset: number;
  /** Samples (for notes: sample-sized cells) in each record. */
  readonly samples: number;
}

export interface EdfLayout {
  readonly width: 2 | 3;
  /** First byte of the first record. */
  readonly from: number;
  readonly recordBytes: number;
  /** Whole records that can be read. */
  readonly records: number;
  /** Seconds per record; 0 only when there are no channels. */
  readonly duration: number;
  readonly channels: readonly Channel[];
  readonly places: readonly Place[];
  readonly scalings: readonly Scaling[];
  readonly notes: readonly Place[];
}

/** Rates outside this come from a damaged header; samples per second. */
const slowest = 1e-6;
const fastest = 1e7;

/** @returns `null` after a fatal problem */
export function layOut(
  header: EdfHeader,
  source: ByteSource,
  options: ReadOptions | undefined,
  log: ProblemLog,
): EdfLayout | null {
  const where = `${source.name}, header`;
  if (log.problems.some(({ weight }) => weight === "fatal")) return null;
  const places: Place[] = [];
  let recordBytes = 0;
  for (const { samplesPerRecord } of header.signals) {
    places.push({ offset: recordBytes, samples: samplesPerRecord });
    recordBytes += samplesPerRecord * header.width;
  }
  if (recordBytes === 0 || !Number.isSafeInteger(recordBytes)) {
    log.add("record-empty", "fatal", where, "samples in each record", `${recordBytes} bytes per record`);
    return null;
  }
  const from = headerEnd(header, source, recordBytes, where, log);
  const records = countRecords(header, source, from, recordBytes, where, log);
  const waves = header.signals.filter(isWave);
  const duration = recordDuration(header, waves, options, where, log);
  const kept = duration > 0 ? waves : [];
  const placeOf = (signal: EdfSignal) => places[header.signals.indexOf(signal)] ?? { offset: 0, samples: 0 };
  const scalings = kept.map((signal) => scalingFor(signal, where, log));
  return {
    width: header.width,
    from,
    recordBytes,
    records,
    duration,
    places: kept.map(placeOf),
    scalings: scalings.map((scaling) => scaling ?? unscaled),
    notes: header.plus === "no" ? [] : header.signals.filter(isNotes).map(placeOf),
    channels: kept.map((signal, n) => {
      // Stored numbers without a scale have no unit, whatever the header claims.
      const unit = scalings[n] === null ? "" : ucumUnit(signal.unit);
      return {
        name: signal.label,
        ...inferKind({ name: signal.label, unit }, options),
        unit,
        rate: hertz(signal.samplesPerRecord / duration),
        start: seconds(0),
        samples: header.plus === "discontinuous" ? null : records * signal.samplesPerRecord,
      };
    }),
  };
}

function isWave(signal: EdfSignal): boolean {
  return !signal.annotations && signal.samplesPerRecord > 0;
}

function isNotes(signal: EdfSignal): boolean {
  return signal.annotations && signal.samplesPerRecord > 0;
}

/** The number of signals fixes the header's length; the stated one counts only if it alone fits the file. */
function headerEnd(
  header: EdfHeader,
  source: ByteSource,
  recordBytes: number,
  where: string,
  log: ProblemLog,
): number {
  const due = fixedHeaderBytes + header.signals.length * signalHeaderBytes;
  const stated = header.statedBytes;
  if (stated === due) return due;
  const fits = (from: number) =>
    header.records !== null && from + header.records * recordBytes === source.size;
  const taken = stated !== null && stated > due && fits(stated) && !fits(due) ? stated : due;
  const found = stated === null ? "no number" : `${stated}; records taken from byte ${taken}`;
  log.add("header-length", "note", where, `${due} header bytes for ${header.signals.length} signals`, found);
  return taken;
}

function countRecords(
  header: EdfHeader,
  source: ByteSource,
  from: number,
  recordBytes: number,
  where: string,
  log: ProblemLog,
): number {
  const bytes = Math.max(0, source.size - from);
  const whole = Math.floor(bytes / recordBytes);
  const stated = header.records;
  const left = bytes - whole * recordBytes;
  if (stated === null || stated < 1) {
    const found = stated === null ? "no number" : String(stated);
    log.add(
      "record-count",
      "note",
      where,
      "number of records",
      `${found}; ${whole} read up to the end of the file`,
    );
  } else if (stated > whole) {
    log.add(
      "records-missing",
      "lost-part",
      source.name,
      `${stated} records of ${recordBytes} bytes`,
      `${whole} whole records`,
    );
    return whole;
  } else if (stated < whole) {
    const more = `${whole - stated} more behind them, not read`;
    log.add("records-beyond-count", "lost-part", source.name, `${stated} records as the header says`, more);
    return stated;
  }
  if (left > 0) {
    log.add(
      "record-cut",
      "lost-part",
      source.name,
      `whole records of ${recordBytes} bytes`,
      `${left} bytes after the last`,
    );
  }
  return whole;
}

/** Seconds; 0 when there is none and so no channel can have a rate. */
function recordDuration(
  header: EdfHeader,
  waves: readonly EdfSignal[],
  options: ReadOptions | undefined,
  where: string,
  log: ProblemLog,
): number {
  if (waves.length === 0) return header.duration !== null && header.duration > 0 ? header.duration : 0;
  const counts = waves.map(({ samplesPerRecord }) => samplesPerRecord);
  const most = counts.reduce((a, b) => Math.max(a, b), 0);
  const least = counts.reduce((a, b) => Math.min(a, b), most);
  const stated = options?.rate === undefined ? header.duration : most / options.rate;
  if (stated !== null && stated > 0 && most / stated <= fastest && least / stated >= slowest) return stated;
  const found = stated === null ? "no number" : `${stated} s for ${most} samples`;
  log.add("record-duration", "fatal", where, "a record duration above 0 s that gives a usable rate", found);
  return 0;
}

function scalingFor(signal: EdfSignal, where: string, log: ProblemLog): Scaling | null {
  const { digitalMinimum: d0, digitalMaximum: d1, physicalMinimum: p0, physicalMaximum: p1 } = signal;
  const place = `${where}, signal "${signal.label}"`;
  const scaling = scalingOf(signal);
  if (scaling === null) {
    const found = `digital ${d0 ?? "?"} to ${d1 ?? "?"}, physical ${p0 ?? "?"} to ${p1 ?? "?"}; stored numbers without unit given`;
    log.add("no-scale", "note", place, "two different digital and two different physical limits", found);
  } else if (d0 !== null && d1 !== null && d0 > d1) {
    log.add(
      "digital-range-reversed",
      "note",
      place,
      "digital minimum below digital maximum",
      `${d0} and ${d1}`,
    );
  }
  return scaling;
}
