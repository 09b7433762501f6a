/** Which recordings of a folder have marks, and where everything lies. */
import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { fileFault, standingOf } from "./file-source.js";
import { readList } from "./marks-files.js";
import { inputStop } from "./stop.js";

export interface MarkedRecord {
  readonly name: string;
  /** File with path, and `#CHANNEL` where the list names one. */
  readonly source: string;
  readonly rate: number | null;
  readonly beats: string | null;
  readonly unmarked: string | null;
  readonly windows: string | null;
}

export interface MarkedFolder {
  readonly records: readonly MarkedRecord[];
  /** Names with marks but no recording, or a recording but no marks. */
  readonly leftOut: readonly { readonly name: string; readonly why: string }[];
}

const endings = [".hea", ".edf", ".EDF", ".mat", ".csv", ".txt", ".json"];

/** First of the candidates that is a file. */
async function firstFile(candidates: readonly string[]): Promise<string | null> {
  for (const path of candidates) if ((await standingOf(path)) === "file") return path;
  return null;
}

async function marksFor(
  folder: string,
  name: string,
): Promise<Omit<MarkedRecord, "name" | "source" | "rate">> {
  return {
    beats: await firstFile([join(folder, "beats", `${name}.csv`), join(folder, `${name}.beats.csv`)]),
    unmarked: await firstFile([
      join(folder, "beats", `${name}.unreadable.csv`),
      join(folder, `${name}.unreadable.csv`),
    ]),
    windows: await firstFile([join(folder, "windows", `${name}.csv`), join(folder, `${name}.windows.csv`)]),
  };
}

async function namesIn(folder: string, ending: string): Promise<string[]> {
  try {
    const entries = await readdir(folder);
    return entries.filter((name) => name.endsWith(ending)).map((name) => name.slice(0, -ending.length));
  } catch {
    return [];
  }
}

/** Folders a recording may lie in: `recordings/`, the folder itself, and one level below it. */
async function places(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const below = entries
    .filter((entry) => entry.isDirectory() && !["beats", "windows", "recordings"].includes(entry.name))
    .map((entry) => join(folder, entry.name))
    .sort();
  return [join(folder, "recordings"), folder, ...below];
}

/** @throws {Stop} bad input, when the folder cannot be read or holds no marks */
export async function markedFolder(folder: string): Promise<MarkedFolder> {
  const standing = await standingOf(folder);
  if (standing === "nothing") throw inputStop(`${folder}: no such folder`);
  if (standing !== "folder")
    throw inputStop(`${folder}: is not a folder; name the folder the recordings are in`);
  const where = await places(folder).catch((error: unknown) => {
    throw inputStop(fileFault(folder, error));
  });
  const list = join(folder, "marked.csv");
  const found = (await standingOf(list)) === "file" ? await fromList(list) : await fromNames();
  if (found.records.length === 0 && found.leftOut.length === 0) {
    throw inputStop(
      `${folder}: no marks found (beats/NAME.csv or windows/NAME.csv); limbtide score --help shows the layout`,
    );
  }
  return found;

  async function fromList(path: string): Promise<MarkedFolder> {
    const records: MarkedRecord[] = [];
    const leftOut: { name: string; why: string }[] = [];
    for (const row of await readList(path)) {
      const file = row.source.replace(/(?<=.)#.*$/s, "");
      const at = await firstFile(where.map((place) => join(place, file)));
      if (at === null) leftOut.push({ name: row.name, why: `no recording ${file}` });
      else {
        const source = at + row.source.slice(file.length);
        records.push({ name: row.name, source, rate: row.rate, ...(await marksFor(folder, row.name)) });
      }
    }
    return { records, leftOut };
  }

  async function fromNames(): Promise<MarkedFolder> {
    const names = new Set(
      [
        ...(await namesIn(join(folder, "beats"), ".csv")),
        ...(await namesIn(join(folder, "windows"), ".csv")),
        ...(await namesIn(folder, ".beats.csv")),
        ...(await namesIn(folder, ".windows.csv")),
      ].filter((name) => !name.endsWith(".unreadable")),
    );
    const records: MarkedRecord[] = [];
    const leftOut: { name: string; why: string }[] = [];
    for (const name of [...names].sort()) {
      const file = await firstFile(where.flatMap((place) => endings.map((end) => join(place, name + end))));
      if (file === null) leftOut.push({ name, why: "marks, but no recording of that name" });
      else records.push({ name, source: file, rate: null, ...(await marksFor(folder, name)) });
    }
    return { records, leftOut };
  }
}
