/**
 * Bytes of a text file as UTF-8 bytes, whatever they were. Tables are read as bytes, because nearly
 * all of them are digits; only names and faults are ever turned into strings.
 */
import type { ByteSource } from "./recording.js";

export type Encoding = "utf-8" | "utf-16le" | "utf-16be";

const chunkBytes = 1 << 17;

/** By byte order mark; without one, by the zero bytes that ASCII digits have in UTF-16. */
export function detectEncoding(head: Uint8Array): { readonly encoding: Encoding; readonly mark: number } {
  if (head[0] === 0xff && head[1] === 0xfe) return { encoding: "utf-16le", mark: 2 };
  if (head[0] === 0xfe && head[1] === 0xff) return { encoding: "utf-16be", mark: 2 };
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) return { encoding: "utf-8", mark: 3 };
  const zeros = [0, 0];
  const looked = Math.min(head.length, 512) & ~1;
  for (let i = 0; i < looked; i++) if (head[i] === 0) zeros[i & 1]!++;
  const most = looked / 2;
  if (looked >= 8 && zeros[1]! > 0.9 * most && zeros[0] === 0) return { encoding: "utf-16le", mark: 0 };
  if (looked >= 8 && zeros[0]! > 0.9 * most && zeros[1] === 0) return { encoding: "utf-16be", mark: 0 };
  return { encoding: "utf-8", mark: 0 };
}

/** The text of a source after its byte order mark, as UTF-8, in chunks; a chunk is valid until the next is asked for. */
export async function* textChunks(
  source: ByteSource,
  from: { encoding: Encoding; mark: number },
): AsyncGenerator<Uint8Array> {
  const recode = from.encoding === "utf-8" ? null : createUtf16Recoder(from.encoding === "utf-16be");
  for (let offset = from.mark; offset < source.size; ) {
    const bytes = await source.read(offset, Math.min(chunkBytes, source.size - offset));
    if (bytes.length === 0) return;
    offset += bytes.length;
    yield recode === null ? bytes : recode(bytes);
  }
}

/** UTF-16 to UTF-8 across chunk borders; an unpaired surrogate becomes U+FFFD. */
export function createUtf16Recoder(bigEndian: boolean): (bytes: Uint8Array) => Uint8Array {
  let odd = -1;
  let high = 0;
  return (bytes) => {
    const out = new Uint8Array(bytes.length * 2 + 8);
    let n = 0;
    const put = (code: number) => {
      if (code < 0x80) out[n++] = code;
      else if (code < 0x800) {
        out[n++] = 0xc0 | (code >> 6);
        out[n++] = 0x80 | (code & 63);
      } else {
        if (code < 0x10000) out[n++] = 0xe0 | (code >> 12);
        else {
          out[n++] = 0xf0 | (code >> 18);
          out[n++] = 0x80 | ((code >> 12) & 63);
        }
        out[n++] = 0x80 | ((code >> 6) & 63);
        out[n++] = 0x80 | (code & 63);
      }
    };
    for (const byte of bytes) {
      if (odd < 0) {
        odd = byte;
        continue;
      }
      const unit = bigEndian ? (odd << 8) | byte : (byte << 8) | odd;
      odd = -1;
      const low = unit >= 0xdc00 && unit < 0xe000;
      if (high !== 0 && low) {
        put(0x10000 + ((high - 0xd800) << 10) + (unit - 0xdc00));
        high = 0;
        continue;
      }
      if (high !== 0) put(0xfffd);
      high = unit >= 0xd800 && unit < 0xdc00 ? unit : 0;
      if (high === 0) put(low ? 0xfffd : unit);
    }
    return out.subarray(0, n);
  };
}

/** UTF-8 to a string; bytes that are not UTF-8 are read as Latin-1, as old loggers write `µ` and `°`. */
export function textOf(bytes: Uint8Array, from: number, to: number): string {
  let text = "";
  for (let i = from; i < to; ) {
    const lead = bytes[i]!;
    const more = lead < 0xc2 ? 0 : lead < 0xe0 ? 1 : lead < 0xf0 ? 2 : lead < 0xf5 ? 3 : 0;
    let code = more === 0 ? lead : lead & (0x3f >> more);
    let used = 0;
    while (used < more && i + used + 1 < to && (bytes[i + used + 1]! & 0xc0) === 0x80) {
      code = (code << 6) | (bytes[i + used + 1]! & 63);
      used++;
    }
    if (used < more || code > 0x10ffff) {
      code = lead;
      used = 0;
    }
    text += String.fromCodePoint(code);
    i += used + 1;
  }
  return text;
}
