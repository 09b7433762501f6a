/**
 * Tags of data elements within a matrix, and small data whole.
 *
 * @see MathWorks, "MAT-File Format", version 5, section "Data element format"
 */
import type { ByteStream } from "./byte-stream.js";

export interface Tag {
  readonly type: number;
  /** Bytes of data, without padding. */
  readonly size: number;
  /** Data of the short form, which lie within the tag; `null` in the long form. */
  readonly inline: Uint8Array | null;
}

/** `null` where the stream ends first or the bytes can't be a tag. */
export async function readTag(stream: ByteStream, littleEndian: boolean): Promise<Tag | null> {
  const bytes = await stream.read(8);
  if (bytes.length < 8) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, 8);
  const first = view.getUint32(0, littleEndian);
  // In the short form the upper half holds the size, 1 to 4.
  const short = first >>> 16;
  if (short > 4) return null;
  if (short > 0) return { type: first & 0xffff, size: short, inline: bytes.slice(4, 4 + short) };
  return { type: first, size: view.getUint32(4, littleEndian), inline: null };
}

/** Data of a small element, read with its padding to eight bytes; `null` where the stream ends first. */
export async function wholeData(stream: ByteStream, tag: Tag): Promise<Uint8Array | null> {
  if (tag.inline !== null) return tag.inline;
  const bytes = await stream.read(Math.ceil(tag.size / 8) * 8);
  return bytes.length < tag.size ? null : bytes.slice(0, tag.size);
}
