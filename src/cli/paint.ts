/** Weight and strike-through on a terminal; words alone everywhere else. Colour never carries meaning. */
import type { Shell } from "./shell.js";

export interface Paint {
  bold(text: string): string;
  soft(text: string): string;
  /** A number that must not be believed (S2): struck where possible, and said in words everywhere. */
  struck(text: string): string;
  sound(text: string): string;
  suspect(text: string): string;
}

const wrap = (open: string, close: string) => (text: string) => `\u001b[${open}m${text}\u001b[${close}m`;
const same = (text: string) => text;

/** Plain unless standard output is a terminal that takes colour; NO_COLOR (no-color.org) is honoured. */
export function paintFor(shell: Shell): Paint {
  const { env } = shell;
  const plain = !shell.outIsTerminal || (env["NO_COLOR"] ?? "") !== "" || env["TERM"] === "dumb";
  if (plain) return { bold: same, soft: same, struck: same, sound: same, suspect: same };
  return {
    bold: wrap("1", "22"),
    soft: wrap("2", "22"),
    struck: wrap("9", "29"),
    sound: wrap("34", "39"),
    suspect: wrap("33", "39"),
  };
}
