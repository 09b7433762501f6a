/** Times as typed: seconds, or hours, minutes and seconds with colons. */
import type { Span } from "./engine.js";

const time = String.raw`(?:\d+(?:\.\d+)?|\d+:[0-5]?\d(?:\.\d+)?|\d+:[0-5]?\d:[0-5]?\d(?:\.\d+)?)`;
const timeForm = new RegExp(`^${time}$`);
const spanForm = new RegExp(`^(${time})?-(${time})?$`);

/** Seconds of `90`, `90.5`, `1:30` or `0:01:30`; `null` for anything else. */
export function parseTime(text: string): number | null {
  if (!timeForm.test(text)) return null;
  return text.split(":").reduce((sum, part) => sum * 60 + Number(part), 0);
}

/** `FROM-TO`, either end may be left out; `null` unless it has that form and the end lies after the start. */
export function parseSpan(text: string): Span | null {
  const match = spanForm.exec(text);
  if (match === null) return null;
  const from = match[1] === undefined ? null : parseTime(match[1]);
  const to = match[2] === undefined ? null : parseTime(match[2]);
  if (from === null && to === null) return null;
  if (from !== null && to !== null && to <= from) return null;
  if (from === null && to === 0) return null;
  return { from, to };
}
