/** Reads that don't stop short: one place that knows a source may hand over less than asked. */
import type { ByteSource } from "./recording.js";

/**
 * Exactly `length` bytes from `offset`, or fewer only where the source ends.
 * Asks again after a short answer; an empty answer is the end, whatever `size` says.
 *
 * @param length bytes; callers keep it at 1 MiB or less so that memory stays flat
 */
export async function readFully(source: ByteSource, offset: number, length: number): Promise<Uint8Array> {
  const first = await source.read(offset, length);
  if (first.length >= length) return first.subarray(0, length);
  if (first.length === 0) return first;
  const bytes = new Uint8Array(length);
  bytes.set(first);
  let filled = first.length;
  while (filled < length) {
    const more = await source.read(offset + filled, length - filled);
    if (more.length === 0) break;
    bytes.set(more.subarray(0, length - filled), filled);
    filled += Math.min(more.length, length - filled);
  }
  return bytes.subarray(0, filled);
}
