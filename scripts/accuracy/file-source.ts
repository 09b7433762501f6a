/** Files on disk as the readers want them. */
import { type FileHandle, open } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import type { ByteSource, Folder } from "../../src/formats/recording.js";

async function source(path: string): Promise<ByteSource> {
  const file: FileHandle = await open(path, "r");
  const { size } = await file.stat();
  return {
    name: basename(path),
    size,
    async read(offset, length) {
      const bytes = new Uint8Array(Math.max(0, Math.min(length, size - offset)));
      const { bytesRead } = await file.read(bytes, 0, bytes.length, offset);
      return bytes.subarray(0, bytesRead);
    },
  };
}

/** A file and the folder it lies in. */
export async function fromDisk(path: string): Promise<{ source: ByteSource; folder: Folder }> {
  return {
    source: await source(path),
    folder: { open: (name) => source(join(dirname(path), name)).catch(() => null) },
  };
}
