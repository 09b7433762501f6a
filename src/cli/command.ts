/** The shape every command has. */
import type { Given, Option } from "./arguments.js";
import type { Shell } from "./shell.js";
import type { ExitCode } from "./stop.js";

export interface Command {
  readonly name: string;
  /** What stands after the name in the help. */
  readonly takes: string;
  /** One line for the list of commands. */
  readonly summary: string;
  readonly options: readonly Option[];
  /** Paragraphs under the options. */
  readonly notes: readonly string[];
  /** Lines a newcomer can copy, each with what it does. */
  readonly examples: readonly (readonly [line: string, does: string])[];
  /** @throws {Stop} */
  run(given: Given, shell: Shell): Promise<ExitCode>;
}
