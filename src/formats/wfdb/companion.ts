/** Opens a file that a header names, but only one that lies beside the header. */
import { excerpt } from "../../model/index.js";
import type { ProblemLog } from "../problem-log.js";
import type { ByteSource, Folder } from "../recording.js";

/** A header is data from outside: it may name files beside it and nothing else. */
export function isPlainName(name: string): boolean {
  if (name === "" || name === "." || name === ".." || name.length > 255) return false;
  return [...name].every((letter) => letter >= " " && !"/\\:\u007f".includes(letter));
}

/** @returns `null` after a problem that says why */
export async function openCompanion(
  folder: Folder,
  name: string,
  where: string,
  log: ProblemLog,
): Promise<ByteSource | null> {
  if (!isPlainName(name)) {
    const expected = "the name of a file in the same folder";
    log.add("path-refused", "lost-part", where, expected, `"${excerpt(name)}"`);
    return null;
  }
  const source = await folder.open(name);
  if (source === null)
    log.add("file-missing", "lost-part", where, `${excerpt(name)} in the same folder`, "none");
  return source;
}
