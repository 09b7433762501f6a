import { defineConfig } from "vitest/config";
import { ClosingLine } from "./scripts/closing-line.js";

export default defineConfig({
  test: {
    include: ["src/**/*.test.ts", "tests/**/*.test.ts"],
    allowOnly: false,
    passWithNoTests: false,
    expect: { requireAssertions: true },
    testTimeout: 60_000,
    reporters: [["default", { summary: false }], new ClosingLine()],
  },
});
