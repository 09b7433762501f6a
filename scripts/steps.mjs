/** Runs commands one after another, says what runs and how long it took, stops at the first that fails. */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("..", import.meta.url));

/** Path of a program that the project's own packages bring along. */
export const tool = (name) => `${root}node_modules/.bin/${name}`;

/**
 * @param steps rows of [what a person reads, command, ...arguments]
 * @returns exit code: 0, or that of the first step that failed
 */
export function runSteps(steps) {
  for (const [i, [title, command, ...args]] of steps.entries()) {
    console.log(`\n[${i + 1}/${steps.length}] ${title}`);
    const started = performance.now();
    const { status, error } = spawnSync(command, args, { cwd: root, stdio: "inherit" });
    const took = ((performance.now() - started) / 1000).toFixed(1);
    if (error) {
      console.error(`  could not run ${command}: ${error.message}`);
      return 1;
    }
    if (status !== 0) {
      console.error(`  "${title}" failed after ${took} s. Mend what it names above and run again.`);
      return status ?? 1;
    }
    // The test run prints its own closing line last; nothing may follow it.
    if (i + 1 < steps.length) console.log(`  done in ${took} s`);
  }
  return 0;
}
