/** Text that came from a file, made harmless for a terminal. */

/** Controls (C0, C1), line and paragraph separators and direction overrides, which could rewrite what a terminal shows. */
function steersTerminal(code: number): boolean {
  return (
    code < 0x20 ||
    (code >= 0x7f && code <= 0x9f) ||
    (code >= 0x200b && code <= 0x200f) ||
    (code >= 0x2028 && code <= 0x202e) ||
    (code >= 0x2066 && code <= 0x2069) ||
    code === 0xfeff
  );
}

/** The text on one line, each steering character shown as `?`. */
export function plainText(text: string): string {
  return Array.from(text, (letter) => (steersTerminal(letter.codePointAt(0) as number) ? "?" : letter)).join(
    "",
  );
}
