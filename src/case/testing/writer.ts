/** A device that writes a case in a test: its clock is set by hand, its numbers and ids count up. */
import type { Digit, Side } from "../../model/index.js";
import type { EventOf } from "../event.js";
import type { BodyOf, EventKind } from "../event-kinds.js";
import { createEventMaker } from "../event-maker.js";
import { wallTime } from "../wall-clock.js";

export interface Writer {
  /** Minutes on this device's clock. */
  minute: number;
  write<K extends EventKind>(kind: K, body: BodyOf<K>): EventOf<K>;
}

export function writer(device: string, minute = 0): Writer {
  let made = 0;
  const self: { minute: number } = { minute };
  const write = createEventMaker({
    case: "case-1",
    device,
    firstSeq: 0,
    now: () => wallTime(self.minute * 60_000),
    newId: () => `${device}-${made++}`,
  });
  return Object.assign(self, { write });
}

const minutes = (count: number) => wallTime(count * 60_000);

/** A solid reading of raw light, from and to in minutes, with what the test sets otherwise. */
export function solidReading(
  side: Side,
  digit: Digit,
  from: number,
  changes: Partial<BodyOf<"reading-taken">> = {},
): BodyOf<"reading-taken"> {
  return {
    site: { side, digit },
    role: "suspect",
    from: minutes(from),
    to: minutes(from + 0.25),
    grade: "solid",
    reasons: [],
    rate: { value: 81, low: 79, high: 83, count: 18 },
    perfusionIndex: { value: 0.6, low: 0.5, high: 0.7, count: 18 },
    presence: { answer: "found", p: 0.0002, upperLimitIndex: null, reference: true },
    saturation: null,
    source: { id: "probe-1", what: "serial-sensor", gainKnown: true },
    trace: null,
    declared: { cuff: null, pump: null, cold: null, block: null, covered: null, height: null },
    closes: null,
    ...changes,
  };
}

/** The same with a grade that carries no numbers (S2). */
export const gradedReading = (
  side: Side,
  digit: Digit,
  from: number,
  grade: "shaky" | "none" | "off" | "unreadable",
  changes: Partial<BodyOf<"reading-taken">> = {},
) => solidReading(side, digit, from, { grade, rate: null, perfusionIndex: null, ...changes });
