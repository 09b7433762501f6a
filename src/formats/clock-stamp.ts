/**
 * One stamp of a clock column as seconds. Four ways of writing are known; a column keeps to one.
 * Knows nothing of rows or rates.
 */

/**
 * - `number`: a count of some unit, given as scale
 * - `date-time`: ISO 8601 `2024-03-01T10:00:00.125`, with or without zone, blank or `/` allowed too
 * - `day-first`: `01.03.2024 10:00:00`, day before month, as written with dots
 * - `time-of-day`: `23:59:59.992`, also after a date whose order of day and month is unclear
 */
export type StampForm = "number" | "date-time" | "day-first" | "time-of-day";

const forms: readonly (readonly [StampForm, RegExp])[] = [
  ["date-time", /^\d{4}[-/]\d{2}[-/]\d{2}[T ]\s*\d{1,2}:\d{2}(:\d{2}([.,]\d+)?)?\s*(Z|[+-]\d{2}:?\d{2})?$/i],
  ["day-first", /^\d{1,2}\.\d{1,2}\.\d{4}[T ]\s*\d{1,2}:\d{2}(:\d{2}([.,]\d+)?)?$/],
  ["time-of-day", /^(\d{1,2}[/-]\d{1,2}[/-]\d{4} )?\d{1,2}:\d{2}:\d{2}([.,]\d+)?$/],
];

/** How a stamp is written, from one cell; `null` if it is no time (a plain number is none by itself). */
export function stampForm(text: string): StampForm | null {
  return forms.find(([, pattern]) => pattern.test(text.trim()))?.[0] ?? null;
}

export interface StampParser {
  /** How finely the last stamp was written, in seconds. */
  readonly printed: number;
  /** Wall-clock start, ISO 8601, from the first good stamp; `null` if the form has no date. */
  readonly startedAt: string | null;
  /** Times that midnight was passed on a clock without date. */
  readonly midnights: number;
  /** Seconds; the zero is the parser's own, only differences mean anything. NaN if this is no stamp. */
  parse(text: string): number;
}

const day = 86_400;

/** For every form but `number`. Clock texts are rare enough (long files use numbers) to go by strings. */
export function createStampParser(form: Exclude<StampForm, "number">): StampParser {
  let firstDay = Number.NaN;
  let last = Number.NaN;
  const stamp = {
    printed: 1,
    startedAt: null as string | null,
    midnights: 0,
    parse(text: string): number {
      const got =
        /^(?:(\d{1,4})[-/.](\d{1,2})[-/.](\d{1,4})[T ]\s*)?(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d+))?)?\s*(Z|[+-]\d{2}:?\d{2})?$/i.exec(
          text.trim(),
        );
      if (got === null) return Number.NaN;
      const [, a, b, c, h, m, s, decimals, zone] = got;
      const hour = Number(h);
      const minute = Number(m);
      const second = Number(s ?? 0);
      if (hour > 24 || minute > 59 || second > 60) return Number.NaN;
      stamp.printed = s === undefined ? 60 : decimals === undefined ? 1 : 10 ** -decimals.length;
      const inDay = hour * 3600 + minute * 60 + Number(`${second}.${decimals ?? 0}`) - zoneSeconds(zone);
      if (form === "time-of-day") {
        let t = inDay + stamp.midnights * day;
        if (last - t > day / 2) {
          stamp.midnights++;
          t += day;
        }
        last = t;
        return t;
      }
      const [year, month, date] = form === "date-time" ? [a, b, c] : [c, b, a];
      const days = daysFromCivil(Number(year), Number(month), Number(date));
      if (!Number.isFinite(days)) return Number.NaN;
      if (Number.isNaN(firstDay)) {
        firstDay = days;
        const iso = (n: string | undefined, width: number) => (n ?? "0").padStart(width, "0");
        const fraction = decimals === undefined ? "" : `.${decimals}`;
        stamp.startedAt = `${iso(year, 4)}-${iso(month, 2)}-${iso(date, 2)}T${iso(h, 2)}:${m}:${iso(s, 2)}${fraction}${zone?.toUpperCase() ?? ""}`;
      }
      return (days - firstDay) * day + inDay;
    },
  };
  return stamp;
}

function zoneSeconds(zone: string | undefined): number {
  if (zone === undefined || zone.toUpperCase() === "Z") return 0;
  const size = Number(zone.slice(1, 3)) * 3600 + Number(zone.slice(-2)) * 60;
  return zone[0] === "-" ? -size : size;
}

/** Days since 1970-01-01; NaN for a date that doesn't exist. */
function daysFromCivil(year: number, month: number, date: number): number {
  const at = new Date(Date.UTC(year, month - 1, date));
  at.setUTCFullYear(year);
  return at.getUTCMonth() === month - 1 && at.getUTCDate() === date
    ? at.getTime() / (day * 1000)
    : Number.NaN;
}
