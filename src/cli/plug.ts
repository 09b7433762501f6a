/** The one place that ties the command line to the layers below. */
import type { Engine } from "./engine.js";
import { exitCodes, Stop } from "./stop.js";

const notYet = async (): Promise<never> => {
  throw new Stop(exitCodes.fault, "the engine is not plugged in yet (src/cli/plug.ts)");
};

export const engine: Engine = { open: notYet, read: notYet, compare: notYet };
