/** Files of the disk as the readers want them. */
import { type FileHandle, open, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import type { ByteSource, Folder } from "../formats/recording.js";
import type { Standing } from "./source-name.js";
import { inputStop } from "./stop.js";

/** What stands at a path; a path that may not be looked at counts as nothing. */
export async function standingOf(path: string): Promise<Standing> {
  try {
    const found = await stat(path);
    if (found.isFile()) return "file";
    return found.isDirectory() ? "folder" : "other";
  } catch {
    return "nothing";
  }
}

/** What the system's error codes mean, in words. */
const meanings: Readonly<Record<string, string>> = {
  EACCES: "permission denied; ask for the right to read it",
  EPERM: "permission denied; ask for the right to read it",
  ENOENT: "no such file",
  EISDIR: "is a folder; name a file in it",
  EMFILE: "too many files are open",
  EIO: "the disk cannot read it; copy it from another one",
  ENOSPC: "the disk is full",
  EROFS: "the disk can only be read",
  ENOTDIR: "a part of the path is not a folder",
  ENAMETOOLONG: "the name is too long",
};

/** One line for an error of the file system. */
export function fileFault(path: string, error: unknown): string {
  const code = (error as { code?: unknown }).code;
  const meaning =
    typeof code === "string" ? (meanings[code] ?? `cannot be used (${code})`) : "cannot be used";
  return `${path}: ${meaning}`;
}

/** Files opened for one run, to be closed together. */
export class OpenFiles {
  readonly #handles: FileHandle[] = [];

  /** @throws {Stop} bad input, when the file cannot be opened */
  async source(path: string): Promise<ByteSource> {
    let handle: FileHandle;
    let size: number;
    try {
      handle = await open(path, "r");
      this.#handles.push(handle);
      size = (await handle.stat()).size;
    } catch (error) {
      throw inputStop(fileFault(path, error));
    }
    return {
      name: basename(path),
      size,
      async read(offset, length) {
        const bytes = new Uint8Array(Math.max(0, Math.min(length, size - offset)));
        let filled = 0;
        while (filled < bytes.length) {
          let count: number;
          try {
            ({ bytesRead: count } = await handle.read(bytes, filled, bytes.length - filled, offset + filled));
          } catch (error) {
            throw inputStop(fileFault(path, error));
          }
          if (count === 0) return bytes.subarray(0, filled);
          filled += count;
        }
        return bytes;
      },
    };
  }

  /** The files beside `path`. Only plain names: a header must not lead out of its folder. */
  beside(path: string): Folder {
    return {
      open: async (name) => {
        if (name === "" || name === "." || name === ".." || /[/\\\0]/.test(name)) return null;
        const companion = join(dirname(path), name);
        return (await standingOf(companion)) === "file" ? this.source(companion) : null;
      },
    };
  }

  async close(): Promise<void> {
    await Promise.allSettled(this.#handles.splice(0).map((handle) => handle.close()));
  }
}
