/** Files on disk as the readers want them; small ones, so they are simply held. */
import { existsSync, readFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import type { ByteSource, Folder } from "../../src/formats/recording.js";

function source(path: string): ByteSource {
  const bytes = new Uint8Array(readFileSync(path));
  return {
    name: basename(path),
    size: bytes.length,
    read: async (offset, length) => bytes.slice(offset, offset + length),
  };
}

/** A file and the folder it lies in. */
export function fromDisk(path: string): { source: ByteSource; folder: Folder } {
  const beside = (name: string) => join(dirname(path), name);
  return {
    source: source(path),
    folder: { open: async (name) => (existsSync(beside(name)) ? source(beside(name)) : null) },
  };
}
