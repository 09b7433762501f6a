/** How a run ends: exit codes, and the error that carries one with its single line. */

export const exitCodes = {
  /** The question was answered. */
  answered: 0,
  /** Read without fault, but nothing to go by: no solid stretch, or a verdict of cannot-tell. */
  cannotTell: 1,
  /** A file that cannot be read, or holds no pleth. */
  badInput: 2,
  /** The command was not understood (as in BSD sysexits, EX_USAGE). */
  usage: 64,
  /** A fault of the tool itself (EX_SOFTWARE). */
  fault: 70,
} as const;

export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];

/** Ends the work on one input with one line for standard error. */
export class Stop extends Error {
  override readonly name = "Stop";
  constructor(
    readonly code: ExitCode,
    /** One line: what is wrong, and what to do about it. */
    readonly line: string,
  ) {
    super(line);
  }
}

export const usageStop = (line: string): Stop => new Stop(exitCodes.usage, line);
export const inputStop = (line: string): Stop => new Stop(exitCodes.badInput, line);

/** Of several inputs the gravest code counts: bad input before cannot tell before answered. */
export function gravest(codes: readonly ExitCode[]): ExitCode {
  return [...codes].sort((a, b) => b - a)[0] ?? exitCodes.answered;
}
