/** Finds the header that names a signal file. */
import { createProblemLog } from "../problem-log.js";
import type { ByteSource, Folder } from "../recording.js";
import { readHeader } from "./header.js";

/**
 * `041s01.dat` has its header in `041s01.hea`; `red_ir_24.dat` may be one of several files of `red_ir.hea`.
 *
 * @returns `null` unless a header is there and names the file
 */
export async function findHeader(name: string, folder: Folder): Promise<ByteSource | null> {
  let stem = name.replace(/\.[^.]*$/, "");
  for (let tries = 0; tries < 4 && stem !== ""; tries++) {
    const header = await folder.open(`${stem}.hea`);
    const parsed = header === null ? null : await readHeader(header, createProblemLog());
    if (parsed?.signals.some(({ file }) => file === name) === true) return header;
    const cut = stem.lastIndexOf("_");
    if (cut <= 0) break;
    stem = stem.slice(0, cut);
  }
  return null;
}
