/** The command line, for tests and for programs that run it inside themselves. */
export type { Engine } from "./engine.js";
export { commands, main } from "./main.js";
export type { Shell } from "./shell.js";
export { exitCodes } from "./stop.js";
