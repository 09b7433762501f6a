/** Shapes of plain data: each gives a static type, and says of a value read back where it departs from it. */
import { excerpt } from "../model/index.js";
import { latestWallTime, type WallTime } from "./wall-clock.js";

export interface Fault {
  /** Path from the start, as in `body.sites[1].side`. */
  readonly where: string;
  readonly expected: string;
  readonly found: string;
}

export interface Shape<T> {
  /** First fault, or `null`; total for plain data. */
  check(value: unknown, where: string): Fault | null;
  /** Carries the static type only; never there. */
  readonly is?: T;
}

export type Of<S> = S extends Shape<infer T> ? T : never;

/** A value in a word or two, for the message of a fault. */
export function show(value: unknown): string {
  if (value === undefined) return "nothing";
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object" && value !== null) return "an object";
  return excerpt(typeof value === "string" ? `"${value}"` : String(value), 40);
}

function shape<T>(expected: string, holds: (value: unknown) => boolean): Shape<T> {
  return {
    check: (value, where) => (holds(value) ? null : { where, expected, found: show(value) }),
  };
}

/** Text of 1 to `most` UTF-16 units. */
export const text = (most: number): Shape<string> =>
  shape(
    `text of 1 to ${most} letters`,
    (value) => typeof value === "string" && value.length > 0 && value.length <= most,
  );

/** Lower-case words joined by hyphens, at most 48 letters. */
export const code: Shape<string> = shape(
  "a code such as `too-few-beats`",
  (value) => typeof value === "string" && value.length <= 48 && /^[a-z0-9]+(-[a-z0-9]+)*$/.test(value),
);

/** The id of an event, a case, a device or a source: printable ASCII without spaces, 1 to 64 letters. */
export const id: Shape<string> = shape(
  "an id",
  (value) => typeof value === "string" && /^[!-~]{1,64}$/.test(value),
);

export const flag: Shape<boolean> = shape("true or false", (value) => typeof value === "boolean");

/** Finite, both ends included. */
export const number = (low: number, high: number, unit: string): Shape<number> =>
  shape(
    `${low} to ${high} ${unit}`.trim(),
    (value) => typeof value === "number" && value >= low && value <= high,
  );

export const whole = (low: number, high: number, unit: string): Shape<number> =>
  shape(
    `a whole number, ${low} to ${high} ${unit}`.trim(),
    (value) => Number.isSafeInteger(value) && (value as number) >= low && (value as number) <= high,
  );

export const moment: Shape<WallTime> = shape(
  "whole milliseconds since 1970",
  (value) => Number.isSafeInteger(value) && (value as number) >= 0 && (value as number) <= latestWallTime,
);

export const oneOf = <const T extends string>(words: readonly T[]): Shape<T> =>
  shape(`one of ${words.join(", ")}`, (value) => words.some((word) => word === value));

export const nullable = <T>(inner: Shape<T>): Shape<T | null> => ({
  check: (value, where) => (value === null ? null : inner.check(value, where)),
});

export const list = <T>(inner: Shape<T>, fewest: number, most: number): Shape<readonly T[]> => ({
  check(value, where) {
    if (!Array.isArray(value) || value.length < fewest || value.length > most) {
      return { where, expected: `a list of ${fewest} to ${most}`, found: show(value) };
    }
    for (let i = 0; i < value.length; i++) {
      const fault = inner.check(value[i], `${where}[${i}]`);
      if (fault !== null) return fault;
    }
    return null;
  },
});

type Fields = Readonly<Record<string, Shape<unknown>>>;
type RecordOf<F extends Fields> = { readonly [K in keyof F]: Of<F[K]> };

/** Every field must be there, `null` where nothing is known; fields it does not know are let pass and kept. */
export const record = <F extends Fields>(fields: F): Shape<RecordOf<F>> => ({
  check(value, where) {
    if (typeof value !== "object" || value === null || Array.isArray(value)) {
      return { where, expected: "an object", found: show(value) };
    }
    for (const [key, inner] of Object.entries(fields)) {
      const own = Object.hasOwn(value, key) ? (value as Record<string, unknown>)[key] : undefined;
      const fault = inner.check(own, where === "" ? key : `${where}.${key}`);
      if (fault !== null) return fault;
    }
    return null;
  },
});

/** One of several records, told apart by their field `tag`. */
export const tagged = <const K extends string, V extends Readonly<Record<string, Fields>>>(
  tag: K,
  variants: V,
): Shape<{ [T in keyof V]: { readonly [k in K]: T } & RecordOf<V[T]> }[keyof V]> => {
  const tags = oneOf(Object.keys(variants));
  const rows = new Map(Object.entries(variants).map(([name, fields]) => [name, record(fields)]));
  return {
    check(value, where) {
      const head = record({ [tag]: tags }).check(value, where);
      if (head !== null) return head;
      return rows.get((value as Record<string, string>)[tag] as string)!.check(value, where);
    },
  };
};

/** Holds a rule between fields; `holds` is asked only of values that have the shape. */
export const ruled = <T>(inner: Shape<T>, expected: string, holds: (value: T) => boolean): Shape<T> => ({
  check(value, where) {
    const fault = inner.check(value, where);
    if (fault !== null) return fault;
    return holds(value as T) ? null : { where, expected, found: "otherwise" };
  },
});

/** Anything: for what another shape judges later. */
export const anything: Shape<unknown> = {
  check: (value, where) => (value === undefined ? { where, expected: "a value", found: show(value) } : null),
};
