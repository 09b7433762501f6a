/** Text to UTF-8 bytes, without the host's encoder, which the pure folders do not see. */
export function encodeText(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length * 3);
  let at = 0;
  for (const letter of text) {
    const whole = letter.codePointAt(0) as number;
    // Half of a surrogate pair stands for nothing: the replacement character instead.
    const code = whole >= 0xd800 && whole <= 0xdfff ? 0xfffd : whole;
    if (code < 0x80) bytes[at++] = code;
    else {
      const more = code < 0x800 ? 1 : code < 0x10000 ? 2 : 3;
      bytes[at++] = ((0xff00 >> (more + 1)) & 0xff) | (code >> (6 * more));
      for (let n = more - 1; n >= 0; n--) bytes[at++] = 0x80 | ((code >> (6 * n)) & 0x3f);
    }
  }
  return bytes.slice(0, at);
}
