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

function sample(kind: Kind, i: number, rows: number): string {
  const phase = (i / 40) % 1;
  const wave = Math.exp(-(((phase - 0.3) / 0.12) ** 2));
  switch (kind) {
    case "wave":
      return String(10_000 - Math.round(200 * wave));
    case "small wave":
      return String(10_000 - Math.round(12 * wave));
    case "flat":
      return "10000";
    case "missing":
      return "nan";
    case "wild":
      return String(i % 7 === 0 ? 5e6 : 10_000);
    case "half":
      return i < rows / 2 ? sample("wave", i, rows) : "10000";
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
