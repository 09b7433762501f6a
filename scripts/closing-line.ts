/**
 * The last line of a test run, the same in every runner: `tests: N passed, N failed`.
 * A skipped or pending test counts as failed here, so nothing can be switched off in silence.
 */
import type { Reporter, TestModule } from "vitest/node";

export class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandled: readonly unknown[]): void {
    let passed = 0;
    let failed = unhandled.length;
    for (const module of modules) {
      const tests = [...module.children.allTests()];
      if (tests.length === 0) failed += 1;
      for (const test of tests) {
        const { state } = test.result();
        if (state === "passed") passed += 1;
        else failed += 1;
        if (state === "skipped" || state === "pending") {
          process.exitCode = 1;
          console.error(`not run: ${test.fullName}`);
        }
      }
    }
    process.once("exit", () => console.log(`\ntests: ${passed} passed, ${failed} failed`));
  }
}
