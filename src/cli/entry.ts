/** The program itself: ties `main` to the process. Built into `dist/limbtide.mjs`. */
import { main } from "./main.js";
import { engine } from "./plug.js";
import type { Shell } from "./shell.js";

// A reader that went away (`limbtide … | head`) is no fault; the answer is simply not wanted any more.
for (const stream of [process.stdout, process.stderr]) {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE") process.exit(process.exitCode ?? 0);
    throw error;
  });
}

const shell: Shell = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  outIsTerminal: process.stdout.isTTY === true,
  errIsTerminal: process.stderr.isTTY === true,
  columns: process.stdout.columns ?? 96,
  env: process.env,
  now: () => performance.now(),
  engine,
};

// Not process.exit: what was written must reach a slow pipe first.
process.exitCode = await main(process.argv.slice(2), shell);
