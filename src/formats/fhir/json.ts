/** Careful hands on parsed JSON of unknown shape: a wrong type is `null`, never a guess. */

export type Json = Readonly<Record<string, unknown>>;

export function isObject(value: unknown): value is Json {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

export function objectAt(json: Json | null, key: string): Json | null {
  const value = json?.[key];
  return isObject(value) ? value : null;
}

/** The objects in a list; other entries are left out. Empty when there is no list. */
export function objectsAt(json: Json | null, key: string): readonly Json[] {
  const value = json?.[key];
  return Array.isArray(value) ? value.filter(isObject) : [];
}

/** Text with more than blanks in it, trimmed. */
export function textAt(json: Json | null, key: string): string | null {
  const value = json?.[key];
  return typeof value === "string" && value.trim() !== "" ? value.trim() : null;
}

export function numberAt(json: Json | null, key: string): number | null {
  const value = json?.[key];
  return typeof value === "number" && Number.isFinite(value) ? value : null;
}

/** What stands at a key, for a problem's `found`. */
export function shownAt(json: Json | null, key: string): string {
  const value = json?.[key];
  if (value === undefined) return "nothing";
  if (Array.isArray(value)) return "a list";
  if (typeof value === "object" && value !== null) return "an object";
  const text = typeof value === "string" ? `"${value}"` : String(value);
  return text.length > 60 ? `${text.slice(0, 59)}…` : text;
}
