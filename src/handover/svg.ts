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

/** Text safe inside elements and attributes; control characters XML 1.0 forbids become U+FFFD. */
export function escapeXml(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what XML 1.0 section 2.2 leaves out
      .replace(
        /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g,
        "\ufffd",
      )
      .replace(/&/g, "&amp;")
      .replace(/</g, "&lt;")
      .replace(/>/g, "&gt;")
      .replace(/"/g, "&quot;")
  );
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
