/** SVG written as text, the same bytes for the same input. Knows nothing of pulses. */

/** A number that must not reach a drawing. */
export class DrawingError extends Error {
  override readonly name = "DrawingError";
  constructor(
    readonly code: "not-finite",
    detail: string,
  ) {
    super(`${code}: ${detail}`);
  }
}

/** XML 1.0 section 2.2 leaves these out of every document, even escaped. */
function allowedInXml(letter: string): boolean {
  const code = letter.codePointAt(0) as number;
  if (code < 0x20) return code === 0x09 || code === 0x0a || code === 0x0d;
  return !(code >= 0xd800 && code <= 0xdfff) && code !== 0xfffe && code !== 0xffff;
}

/** Text safe inside elements and attributes; what XML forbids becomes U+FFFD. */
export function escapeXml(text: string): string {
  return Array.from(text, (letter) => (allowedInXml(letter) ? letter : "\ufffd"))
    .join("")
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;");
}

/**
 * A coordinate to a hundredth of a pixel, without trailing zeros.
 *
 * @throws {DrawingError} `not-finite`
 */
export function coordinate(value: number): string {
  if (!Number.isFinite(value)) throw new DrawingError("not-finite", String(value));
  const text = value.toFixed(2).replace(/\.?0+$/, "");
  return text === "-0" ? "0" : text;
}

type AttributeValue = string | number | undefined;

/** One element; numbers become coordinates, `undefined` attributes are left out, `inside` is markup already. */
export function element(
  name: string,
  attributes: Readonly<Record<string, AttributeValue>>,
  ...inside: readonly string[]
): string {
  const written = Object.entries(attributes)
    .filter((entry): entry is [string, string | number] => entry[1] !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === "number" ? coordinate(value) : escapeXml(value)}"`)
    .join("");
  return inside.length === 0 ? `<${name}${written}/>` : `<${name}${written}>${inside.join("")}</${name}>`;
}

/** A straight line. */
export function line(
  [x1, y1]: readonly [number, number],
  [x2, y2]: readonly [number, number],
  attributes: Readonly<Record<string, AttributeValue>>,
): string {
  return element("line", { x1, y1, x2, y2, ...attributes });
}
