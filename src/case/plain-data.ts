/** What an event may hold: data that JSON carries without loss, in one agreed spelling. */

export type Plain = null | boolean | number | string | readonly Plain[] | { readonly [key: string]: Plain };

/** More than any event of ours needs; a bound against input made to exhaust the reader. */
const deepest = 16;
const mostValues = 20_000;

/** Where and why a value is not plain data. */
export interface NotPlain {
  readonly where: string;
  readonly found: string;
}

/** `null` if JSON carries the value without loss; a number that is not finite, `undefined` or a class is not. */
export function notPlain(value: unknown): NotPlain | null {
  let left = mostValues;
  const walk = (item: unknown, where: string, depth: number): NotPlain | null => {
    left -= 1;
    if (left < 0) return { where, found: `more than ${mostValues} values` };
    if (depth > deepest) return { where, found: `more than ${deepest} levels` };
    if (item === null || typeof item === "boolean" || typeof item === "string") return null;
    if (typeof item === "number") return Number.isFinite(item) ? null : { where, found: String(item) };
    if (typeof item !== "object") return { where, found: typeof item };
    if (Array.isArray(item)) {
      for (let i = 0; i < item.length; i++) {
        const fault = walk(item[i], `${where}[${i}]`, depth + 1);
        if (fault !== null) return fault;
      }
      return null;
    }
    // A page and a worker have their own Object: the shape of the prototype counts, not which one it is.
    const above: unknown = Object.getPrototypeOf(item);
    if (above !== null && Object.getPrototypeOf(above) !== null)
      return { where, found: "an object of a class" };
    for (const [key, inner] of Object.entries(item)) {
      const fault = walk(inner, where === "" ? key : `${where}.${key}`, depth + 1);
      if (fault !== null) return fault;
    }
    return null;
  };
  return walk(value, "", 0);
}

/**
 * One spelling for equal data: JSON with the keys of every object in order of their UTF-16 units and no spaces,
 * as in RFC 8785 (JSON Canonicalization Scheme), sections 3.2.1 to 3.2.3. For values `notPlain` lets pass.
 */
export function canonicalText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalText).join(",")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const entries = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${entries.map(([key, inner]) => `${JSON.stringify(key)}:${canonicalText(inner)}`).join(",")}}`;
}
