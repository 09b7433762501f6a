/** Bytes in order, from a file as it is or from a compressed part of it, in small pieces. */
import { Unzlib } from "fflate";
import { readFully } from "../read-fully.js";
import type { ByteSource } from "../recording.js";

export interface ByteStream {
  /** Bytes given or skipped so far. */
  readonly at: number;
  /** The next `length` bytes; fewer only where the stream ends. Valid until the next call. */
  read(length: number): Promise<Uint8Array>;
  skip(length: number): Promise<void>;
  /**
   * Reads to the end. False if a compressed stream is cut, can't be unpacked, or has another sum than
   * its writer noted.
   */
  sound(): Promise<boolean>;
}

/** Where an element's data lie in the file. */
export interface Extent {
  readonly from: number;
  readonly to: number;
  readonly compressed: boolean;
}

export function openStream(source: ByteSource, extent: Extent): ByteStream {
  const to = Math.min(extent.to, source.size);
  return extent.compressed ? inflated(source, extent.from, to) : plain(source, extent.from, to);
}

function plain(source: ByteSource, from: number, to: number): ByteStream {
  let at = 0;
  return {
    get at() {
      return at;
    },
    async read(length) {
      const bytes = await readFully(source, from + at, Math.max(0, Math.min(length, to - from - at)));
      at += bytes.length;
      return bytes;
    },
    async skip(length) {
      at += length;
    },
    sound: async () => true,
  };
}

/** Bytes already at hand. */
export function memoryStream(bytes: Uint8Array): ByteStream {
  return plain(
    { name: "", size: bytes.length, read: async (from, length) => bytes.slice(from, from + length) },
    0,
    bytes.length,
  );
}

/** Compressed bytes taken from the file, and unpacked, at once: a byte can unpack to a thousand. */
const piece = 1 << 16;
const slice = 1 << 10;

function inflated(source: ByteSource, from: number, to: number): ByteStream {
  let packed = new Uint8Array();
  let used = 0;
  let at = from;
  let held = new Uint8Array();
  let taken = 0;
  let given = 0;
  let ended = false;
  let failed = false;
  const sum = createAdler32();
  const parts: Uint8Array[] = [];
  const unpacker = new Unzlib((part) => {
    if (part.length > 0) parts.push(part);
  });

  /** Unpacks a little more; false at the end. */
  const more = async (): Promise<boolean> => {
    if (ended) return false;
    if (used === packed.length) {
      packed = new Uint8Array(await readFully(source, at, Math.min(piece, to - at)));
      at += packed.length;
      used = 0;
    }
    const next = packed.subarray(used, used + slice);
    used += next.length;
    ended = next.length === 0 || (used === packed.length && at >= to);
    try {
      // Never as the final piece: that would throw away what a cut stream still holds.
      unpacker.push(next, false);
    } catch {
      failed = true;
      ended = true;
    }
    return true;
  };

  /** At least `length` bytes in `held` from `taken` on, if there are so many. */
  const ensure = async (length: number) => {
    while (held.length - taken < length && (await more())) {
      let size = held.length - taken;
      for (const part of parts) size += part.length;
      const joined = new Uint8Array(size);
      joined.set(held.subarray(taken));
      let end = held.length - taken;
      for (const part of parts) {
        sum.add(part);
        joined.set(part, end);
        end += part.length;
      }
      parts.length = 0;
      held = joined;
      taken = 0;
    }
  };

  const stream: ByteStream = {
    get at() {
      return given;
    },
    async read(length) {
      await ensure(length);
      const bytes = held.subarray(taken, taken + length);
      taken += bytes.length;
      given += bytes.length;
      return bytes;
    },
    async skip(length) {
      for (let left = length; left > 0; ) {
        const bytes = await stream.read(Math.min(left, piece));
        if (bytes.length === 0) return;
        left -= bytes.length;
      }
    },
    async sound() {
      while ((await stream.read(piece)).length > 0);
      if (failed) return false;
      const noted = await readFully(source, to - 4, 4);
      return noted.length === 4 && new DataView(noted.buffer, noted.byteOffset, 4).getUint32(0) === sum.value;
    },
  };
  return stream;
}

/** @see RFC 1950, section 8.2: the sum at the end of a zlib stream */
function createAdler32() {
  let a = 1;
  let b = 0;
  return {
    add(bytes: Uint8Array): void {
      for (let from = 0; from < bytes.length; from += 3800) {
        const to = Math.min(bytes.length, from + 3800);
        for (let n = from; n < to; n++) {
          a += bytes[n] as number;
          b += a;
        }
        a %= 65_521;
        b %= 65_521;
      }
    },
    get value() {
      return b * 65_536 + a;
    },
  };
}
