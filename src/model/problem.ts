/**
 * What is wrong with data, as a value. Bad data never throws: the good part is returned
 * and each fault is listed with its place, what was expected and what was found.
 */

/** How much the problem costs: the whole input, a part of it, or only a remark. */
export type ProblemWeight = "fatal" | "lost-part" | "note";

export interface Problem {
  /** Stable, kebab-case, e.g. `checksum-mismatch`; the reader's docs list its codes. */
  readonly code: string;
  readonly weight: ProblemWeight;
  /** Where: file name, and line, byte, record, channel or second as fits. */
  readonly where: string;
  readonly expected: string;
  readonly found: string;
}

/** Shortens text from a file so that a message stays one readable line. */
export function excerpt(text: string, most = 60): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is removed
  const line = text.replace(/[\u0000-\u001f\u007f]+/g, " ").trim();
  return line.length > most ? `${line.slice(0, most - 1)}…` : line;
}

/** One line for a person: what, where, what to look at. */
export function describeProblem(problem: Problem): string {
  return `${problem.where}: expected ${problem.expected}, found ${problem.found} (${problem.code})`;
}
