/** The words after the program's name, checked against each command's table of options. */
import { parseArgs } from "node:util";
import type { ReadOptions } from "../formats/recording.js";
import { parseSite, type Site } from "../model/index.js";
import { usageStop } from "./stop.js";

export interface Option {
  readonly name: string;
  /** What stands after it in the help, e.g. `FILE`; `null` for a switch. */
  readonly value: string | null;
  readonly many?: boolean;
  readonly help: string;
}

/** Options as given: a switch is `true`. */
export interface Given {
  readonly files: readonly string[];
  has(name: string): boolean;
  /** The value, the last one if given more than once. */
  text(name: string): string | null;
  all(name: string): readonly string[];
}

/** @throws {Stop} usage */
export function parseOptions(command: string, options: readonly Option[], words: readonly string[]): Given {
  const help = `limbtide ${command} --help shows how`;
  let values: Readonly<Record<string, string | boolean | (string | boolean)[] | undefined>>;
  let files: readonly string[];
  try {
    ({ values, positionals: files } = parseArgs({
      args: [...words],
      options: Object.fromEntries(
        options.map(({ name, value }) => [
          name,
          { type: value === null ? ("boolean" as const) : ("string" as const), multiple: true },
        ]),
      ),
      allowPositionals: true,
      strict: true,
    }));
  } catch (error) {
    const said = error instanceof Error ? error.message.split(/\n|\. To specify/)[0] : String(error);
    const ambiguous = /^Option '(--[\w-]+)' argument is ambiguous/.exec(said ?? "");
    if (ambiguous !== null) {
      throw usageStop(`${ambiguous[1]} needs a value, and what follows begins with "-"; ${help}`);
    }
    throw usageStop(`${said}; ${help}`);
  }
  const all = (name: string): string[] =>
    [values[name] ?? []].flat().filter((value): value is string => typeof value === "string");
  return {
    files,
    has: (name) => values[name] !== undefined,
    text: (name) => all(name).at(-1) ?? null,
    all,
  };
}

export const sourceOptions: readonly Option[] = [
  {
    name: "rate",
    value: "N",
    help: "samples per second, for tables without a time column; overrides the file's own",
  },
  {
    name: "kind",
    value: "CHANNEL=KIND",
    many: true,
    help: "what a channel is, whatever its name says: infrared, red (raw light) or display (a trace drawn for a screen)",
  },
];

const kinds = ["infrared", "red", "display"] as const;
type Kind = (typeof kinds)[number];

/** @throws {Stop} usage */
export function readOptionsOf(given: Given): ReadOptions {
  const rateText = given.text("rate");
  const rate = rateText === null ? null : Number(rateText);
  if (rate !== null && !(rate > 0 && Number.isFinite(rate))) {
    throw usageStop(`--rate ${rateText}: not a number above 0, in samples per second`);
  }
  const stated: Record<string, Kind> = Object.create(null);
  for (const text of given.all("kind")) {
    // Channel names may hold "="; kinds do not.
    const at = text.lastIndexOf("=");
    const kind = kinds.find((name) => name === text.slice(at + 1));
    if (at <= 0 || kind === undefined) {
      throw usageStop(`--kind ${text}: write CHANNEL=KIND, KIND one of ${kinds.join(", ")}`);
    }
    stated[text.slice(0, at)] = kind;
  }
  return {
    ...(rate === null ? {} : { rate }),
    ...(Object.keys(stated).length === 0 ? {} : { kinds: stated }),
  };
}

/** @throws {Stop} usage */
export function siteOf(given: Given, option: string): Site | null {
  const text = given.text(option);
  if (text === null) return null;
  const site = parseSite(text);
  if (site === null) {
    throw usageStop(
      `--${option} "${text}": write side and digit, e.g. "left middle finger" or "right great toe"`,
    );
  }
  return site;
}

/** One of a few words; `null` when not given. @throws {Stop} usage */
export function oneOf<Word extends string>(
  given: Given,
  option: string,
  words: readonly Word[],
): Word | null {
  const text = given.text(option);
  if (text === null) return null;
  const word = words.find((candidate) => candidate === text);
  if (word === undefined) throw usageStop(`--${option} ${text}: say one of ${words.join(", ")}`);
  return word;
}
