/** The outside world as the commands see it, so that tests can stand in for it. */
import type { Engine } from "./engine.js";

export interface Shell {
  /** Answers: standard output. */
  out(text: string): void;
  /** Complaints and progress: standard error. */
  err(text: string): void;
  readonly outIsTerminal: boolean;
  readonly errIsTerminal: boolean;
  readonly columns: number;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Milliseconds of a clock that never runs back. */
  now(): number;
  readonly engine: Engine;
}
