/** Help texts, made from the commands' own tables. */
import { decidesLine } from "../handover/index.js";
import type { Option } from "./arguments.js";
import type { Command } from "./command.js";
import { wrapLines } from "./wrap-lines.js";

const width = 80;

export const commonOptions: readonly Option[] = [
  { name: "json", value: null, help: "answer as JSON (docs/json.md)" },
  { name: "help", value: null, help: "this text" },
];

const sourceNote =
  "A source is FILE, FILE#CHANNEL, FILE@FROM-TO or FILE#CHANNEL@FROM-TO. Times are seconds or hh:mm:ss after the first sample of the record; either end may be left out (@1:30-). The channel may be left out when the file holds one pleth only; a number counts channels from 1. File names may hold # and @: the longest name of an existing file wins.";

const exitNote =
  "Exit codes: 0 answered, 1 cannot tell, 2 bad input (one line on standard error), 64 command not understood, 70 a fault of limbtide itself.";

function optionLines(options: readonly Option[]): string[] {
  const names = options.map(({ name, value }) => `  --${name}${value === null ? "" : ` ${value}`}`);
  const column = Math.min(28, Math.max(...names.map((name) => name.length)) + 2);
  return options.map(({ help, many }, i) => {
    const text = many ? `${help}; may be given more than once` : help;
    const name = names[i] as string;
    const first = name.length + 1 < column ? name.padEnd(column) : `${name}\n${" ".repeat(column)}`;
    const lines = wrapLines(text, width, " ".repeat(column), " ".repeat(column));
    return first.includes("\n") ? `${name}\n${lines}` : name.padEnd(column) + lines.slice(column);
  });
}

function exampleLines(examples: Command["examples"]): string[] {
  return examples.flatMap(([line, does]) => [`  ${line}`, wrapLines(does, width, "      ", "      ")]);
}

export function commandHelp(command: Command): string {
  return [
    `Usage: limbtide ${command.name} ${command.takes}`,
    "",
    wrapLines(`${command.summary.charAt(0).toUpperCase()}${command.summary.slice(1)}.`, width),
    "",
    "Options:",
    ...optionLines([...command.options, ...commonOptions]),
    "",
    ...[...command.notes, sourceNoteFor(command), exitNote]
      .filter((note) => note !== "")
      .flatMap((note) => [wrapLines(note, width), ""]),
    "Examples:",
    ...exampleLines(command.examples),
    "",
  ].join("\n");
}

const sourceNoteFor = (command: Command) => (command.name === "score" ? "" : sourceNote);

export function generalHelp(commands: readonly Command[]): string {
  const column = Math.max(...commands.map(({ name, takes }) => name.length + takes.length)) + 14;
  return [
    "limbtide: tells with a pulse oximeter's pleth whether a pulse wave reaches the end of a limb,",
    "and how sure that is.",
    "",
    "Usage: limbtide COMMAND …",
    "",
    ...commands.map(({ name, takes, summary }) => {
      const text = wrapLines(summary, width, " ".repeat(column), " ".repeat(column));
      return `  limbtide ${name} ${takes}`.padEnd(column) + text.slice(column);
    }),
    "",
    "  limbtide COMMAND --help   options and examples of one command",
    "  limbtide --version        the version",
    "",
    "First steps:",
    ...exampleLines(commands.flatMap(({ examples }) => examples.slice(0, 1))),
    "",
    wrapLines(
      "Reads WFDB (.hea), EDF and EDF+ (.edf), MATLAB (.mat), CSV and plain columns (.csv, .txt) and FHIR SampledData (.json).",
      width,
    ),
    "",
    wrapLines(sourceNote, width),
    "",
    wrapLines(exitNote, width),
    "",
    wrapLines(decidesLine, width),
    "",
  ].join("\n");
}
