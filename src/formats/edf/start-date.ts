/** When an EDF recording began, from its date, time and "Startdate" subfield. */
import type { ProblemLog } from "../problem-log.js";

const months = ["JAN", "FEB", "MAR", "APR", "MAY", "JUN", "JUL", "AUG", "SEP", "OCT", "NOV", "DEC"];

interface Day {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

/**
 * Local wall-clock time without zone, e.g. `2019-01-22T01:04:13`; `null` when the date is hidden or unreadable.
 *
 * Two-digit years 85 to 99 are 1985 to 1999, 00 to 84 are 2000 to 2084; the four-digit year of an
 * EDF+ "Startdate dd-MMM-yyyy" wins, and its `X` means that the date is not to be known.
 *
 * @param offset seconds from the header's whole second to the first sample (EDF+ first onset)
 * @see EDF+ specification, sections 2.1.3.2 and 2.1.3.3 (clipping date 1985)
 */
export function startOf(
  date: string,
  time: string,
  recording: string,
  offset: number,
  where: string,
  log: ProblemLog,
): string | null {
  const stated = /^Startdate\s+(X|(\d{1,2})-([A-Za-z]{3})-(\d{4}))(\s|$)/.exec(recording);
  if (stated?.[1] === "X") return null;
  const header = twoDigitDay(date);
  const plus = stated === null ? null : statedDay(stated);
  const clock = /^(\d\d)[.:](\d\d)[.:](\d\d)$/.exec(time);
  const day = plus ?? header;
  if (day === null) {
    log.add("start-date", "note", where, "start date dd.mm.yy", date === "" ? "blank" : `"${date}"`);
    return null;
  }
  if (plus !== null && header !== null && !sameDay(plus, header)) {
    log.add(
      "start-date",
      "note",
      where,
      `start date ${written(plus)} as in the recording field`,
      `"${date}"`,
    );
  }
  const [hour, minute, second] = [Number(clock?.[1]), Number(clock?.[2]), Number(clock?.[3])];
  if (clock === null || hour > 23 || minute > 59 || second > 59) {
    log.add("start-time", "note", where, "start time hh.mm.ss", time === "" ? "blank" : `"${time}"`);
    return null;
  }
  const at = new Date(
    Date.UTC(day.year, day.month - 1, day.day, hour, minute, second) + Math.round(offset * 1e3),
  );
  if (Number.isNaN(at.getTime())) return null;
  return at.toISOString().replace(/(\.000)?Z$/, "");
}

function twoDigitDay(date: string): Day | null {
  const match = /^(\d\d)[.\-/](\d\d)[.\-/](\d\d)$/.exec(date);
  if (match === null) return null;
  const year = Number(match[3]);
  return calendarDay(year >= 85 ? 1900 + year : 2000 + year, Number(match[2]), Number(match[1]));
}

function statedDay(match: RegExpExecArray): Day | null {
  const month = months.indexOf((match[3] ?? "").toUpperCase()) + 1;
  return calendarDay(Number(match[4]), month, Number(match[2]));
}

/** `null` for the 31st of February and the like. */
function calendarDay(year: number, month: number, day: number): Day | null {
  const at = new Date(Date.UTC(year, month - 1, day));
  if (at.getUTCMonth() !== month - 1 || at.getUTCDate() !== day || year < 1000) return null;
  return { year, month, day };
}

function sameDay(a: Day, b: Day): boolean {
  return a.day === b.day && a.month === b.month && a.year % 100 === b.year % 100;
}

function written({ year, month, day }: Day): string {
  return `${day}-${months[month - 1]}-${year}`;
}
