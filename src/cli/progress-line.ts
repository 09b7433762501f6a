/** One line that says how far long work has come; only on a terminal, and gone afterwards. */
import type { Progress } from "./engine.js";
import { plainText } from "./plain-text.js";
import type { Shell } from "./shell.js";

const firstAfterMs = 700;
const everyMs = 200;

export interface ProgressLine {
  readonly report: Progress;
  /** Wipes the line. */
  done(): void;
}

export function progressLine(shell: Shell, what: string): ProgressLine {
  if (!shell.errIsTerminal) return { report: () => {}, done: () => {} };
  let next = shell.now() + firstAfterMs;
  let shown = false;
  return {
    report(share) {
      if (shell.now() < next) return;
      next = shell.now() + everyMs;
      shown = true;
      shell.err(`\r\u001b[K${plainText(what)} ${Math.floor(100 * Math.min(1, Math.max(0, share)))} %`);
    },
    done() {
      if (shown) shell.err("\r\u001b[K");
    },
  };
}
