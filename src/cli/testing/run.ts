/** Runs the command line inside the test, on invented files in a folder of its own. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { main } from "../main.js";
import type { Shell } from "../shell.js";
import { standIn } from "./stand-in-engine.js";

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export async function run(words: readonly string[], shell: Partial<Shell> = {}): Promise<Ran> {
  let out = "";
  let err = "";
  let clock = 0;
  const code = await main(words, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    outIsTerminal: false,
    errIsTerminal: false,
    columns: 96,
    env: {},
    now: () => {
      clock += 1000;
      return clock;
    },
    engine: standIn,
    ...shell,
  });
  return { code, out, err };
}

/** One column of a table: `wave` beats at 75 /min at 50 samples/s. */
export type Kind = "wave" | "small wave" | "flat" | "missing" | "wild" | "half";

/** Two counts of quiet noise, the same in every run. */
const noise = (i: number) => ((Math.imul(i + 1, 0x9e3779b1) >>> 16) % 5) - 2;

/** Raw light: a pulse with a second wave, falling in systole, its top at sample 12 of 40. */
function light(i: number, size: number): string {
  const phase = (i / 40) % 1;
  const bump = (at: number, width: number) => Math.exp(-(((phase - at) / width) ** 2));
  return String(
    10_000 - Math.round(size * (bump(0.3, 0.1) + 0.4 * bump(0.62, 0.14))) + (size > 100 ? 0 : noise(i)),
  );
}

function sample(kind: Kind, i: number, rows: number): string {
  switch (kind) {
    case "wave":
      return light(i, 200);
    case "small wave":
      return light(i, 24);
    case "flat":
      return light(i, 0);
    case "missing":
      return "nan";
    case "wild":
      return String(i % 7 === 0 ? 5e6 : 10_000);
    case "half":
      return sample(i < rows / 2 ? "wave" : "flat", i, rows);
  }
}

/** A table with a head line and 50 rows a second. */
export function table(columns: Readonly<Record<string, Kind>>, seconds = 20): string {
  const rows = seconds * 50;
  const names = Object.keys(columns);
  const body = Array.from({ length: rows }, (_, i) =>
    names.map((name) => sample(columns[name] as Kind, i, rows)).join(","),
  );
  return `${names.join(",")}\n${body.join("\n")}\n`;
}

/** A folder that is gone after `use`. */
export class Folder {
  readonly path = mkdtempSync(join(tmpdir(), "limbtide-"));

  write(name: string, content: string | Uint8Array): string {
    const path = join(this.path, name);
    writeFileSync(path, content);
    return path;
  }

  remove(): void {
    rmSync(this.path, { recursive: true, force: true });
  }
}
