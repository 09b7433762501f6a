/** Sources that live in memory and keep count of what was asked of them. */
import type { ByteSource, Folder } from "../recording.js";

/** What a reader asked for so far, in bytes. */
export interface ReadCount {
  /** Calls of `read`. */
  reads: number;
  /** Sum of the lengths handed over. */
  served: number;
  /** Longest single answer. */
  largest: number;
}

export interface MemorySource extends ByteSource {
  readonly count: ReadCount;
}

/**
 * @param most longest answer to one `read`, in bytes; small numbers make a source that
 *   hands over its bytes in crumbs, always at least one where there is one
 */
export function memorySource(name: string, bytes: Uint8Array, most = Number.POSITIVE_INFINITY): MemorySource {
  const count: ReadCount = { reads: 0, served: 0, largest: 0 };
  return {
    name,
    size: bytes.length,
    count,
    async read(offset, length) {
      if (!(Number.isSafeInteger(offset) && offset >= 0 && Number.isSafeInteger(length) && length >= 0)) {
        throw new RangeError(`${name}: read of ${length} bytes from ${offset}`);
      }
      // A copy at an odd place of a larger buffer, as real sources may give: readers that
      // assume alignment or keep a view of the file fail here.
      const taken = bytes.subarray(offset, offset + Math.min(length, most));
      const answer = new Uint8Array(taken.length + 1).subarray(1);
      answer.set(taken);
      count.reads += 1;
      count.served += answer.length;
      count.largest = Math.max(count.largest, answer.length);
      return answer;
    },
  };
}

/** A folder of sources, found by exact name. */
export function memoryFolder(sources: readonly ByteSource[]): Folder {
  return {
    async open(name) {
      return sources.find((source) => source.name === name) ?? null;
    },
  };
}

/** For readers of single files: every companion is missing. */
export const emptyFolder: Folder = memoryFolder([]);
