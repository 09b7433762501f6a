/** From the words typed to an exit code. Everything it touches comes in through the shell. */
import { parseOptions } from "./arguments.js";
import type { Command } from "./command.js";
import { compareCommand } from "./compare-command.js";
import { plainText } from "./plain-text.js";
import { practiceCommand } from "./practice-command.js";
import { readCommand } from "./read-command.js";
import { scoreCommand } from "./score-command.js";
import type { Shell } from "./shell.js";
import { type ExitCode, exitCodes, Stop, usageStop } from "./stop.js";
import { commandHelp, commonOptions, generalHelp } from "./usage.js";
import { version } from "./version.js";

export const commands: readonly Command[] = [readCommand, compareCommand, scoreCommand, practiceCommand];

/** Runs one command line; never throws. */
export async function main(words: readonly string[], shell: Shell): Promise<ExitCode> {
  try {
    return await dispatch(words, shell);
  } catch (error) {
    if (error instanceof Stop) {
      shell.err(`limbtide: ${plainText(error.line)}\n`);
      return error.code;
    }
    const said = error instanceof Error ? error.message : String(error);
    shell.err(`limbtide: a fault of its own: ${plainText(said)}. LIMBTIDE_TRACE=1 shows where.\n`);
    if ((shell.env["LIMBTIDE_TRACE"] ?? "") !== "" && error instanceof Error) shell.err(`${error.stack}\n`);
    return exitCodes.fault;
  }
}

async function dispatch(words: readonly string[], shell: Shell): Promise<ExitCode> {
  const [first, ...rest] = words;
  if (first === undefined) {
    shell.err(generalHelp(commands));
    return exitCodes.usage;
  }
  if (first === "--version" || first === "-V") {
    shell.out(`limbtide ${version}\n`);
    return exitCodes.answered;
  }
  if (first === "--help" || first === "-h" || first === "help") {
    const about = commands.find(({ name }) => name === rest[0]);
    shell.out(about === undefined ? generalHelp(commands) : commandHelp(about));
    return exitCodes.answered;
  }
  const command = commands.find(({ name }) => name === first);
  if (command === undefined) {
    const known = commands.map(({ name }) => name).join(", ");
    throw usageStop(`no command "${first}"; there are ${known}. limbtide --help shows how`);
  }
  // Asked for help, nothing else on the line matters, not even a mistake.
  const end = rest.indexOf("--");
  const before = end < 0 ? rest : rest.slice(0, end);
  if (before.includes("--help") || before.includes("-h")) {
    shell.out(commandHelp(command));
    return exitCodes.answered;
  }
  return command.run(parseOptions(command.name, [...command.options, ...commonOptions], rest), shell);
}
