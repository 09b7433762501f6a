/** When an Observation holds: its `effective[x]`, as written and as an instant. */
import { type Json, objectAt, textAt } from "./json.js";

export interface Effective {
  /** As written in the file. */
  readonly text: string;
  /** Milliseconds of a clock that is the same for all observations with a zone; `null` for a bare date. */
  readonly instant: number | null;
}

const form = /^(\d{4})(?:-(\d\d)(?:-(\d\d)(?:T(\d\d):(\d\d):(\d\d)(?:\.(\d+))?(Z|[+-]\d\d:\d\d)?)?)?)?$/;

/** Text of `effectiveDateTime`, `effectiveInstant`, or the start of `effectivePeriod`; `null` when there is none. */
export function effectiveText(observation: Json): string | null {
  return (
    textAt(observation, "effectiveDateTime") ??
    textAt(observation, "effectiveInstant") ??
    textAt(objectAt(observation, "effectivePeriod"), "start")
  );
}

/** @returns `null` when the text is no FHIR dateTime, the 31st of February included */
export function readEffective(text: string): Effective | null {
  const match = form.exec(text);
  if (match === null) return null;
  const [year, month, day] = [Number(match[1]), Number(match[2] ?? 1), Number(match[3] ?? 1)];
  const [hour, minute, second] = [Number(match[4] ?? 0), Number(match[5] ?? 0), Number(match[6] ?? 0)];
  const calendar = new Date(Date.UTC(year, month - 1, day));
  if (calendar.getUTCMonth() !== month - 1 || calendar.getUTCDate() !== day) return null;
  if (hour > 23 || minute > 59 || second > 60) return null;
  if (match[4] === undefined) return { text, instant: null };
  const fraction = Number(`0.${match[7] ?? 0}`) * 1000;
  const local = Date.UTC(year, month - 1, day, hour, minute, second) + fraction;
  // FHIR asks for a zone with every time; without one all times of the file are taken as one clock.
  return { text, instant: local - zoneOffset(match[8] ?? "Z") };
}

/** Milliseconds east of UTC. */
function zoneOffset(zone: string): number {
  if (zone === "Z") return 0;
  const minutes = Number(zone.slice(1, 3)) * 60 + Number(zone.slice(4, 6));
  return (zone.startsWith("-") ? -1 : 1) * minutes * 60_000;
}
