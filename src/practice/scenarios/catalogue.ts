/** All scenarios, in the order in which one would learn. */
import { PracticeError } from "../errors.js";
import { bedside } from "./bedside.js";
import { captures } from "./captures.js";
import { cuffs } from "./cuffs.js";
import type { Scenario } from "./scenario.js";
import { transfers } from "./transfers.js";
import { twoSides } from "./two-sides.js";
import { watching } from "./watching.js";

export const scenarios: readonly Scenario[] = [
  ...captures,
  ...twoSides,
  ...watching,
  ...cuffs,
  ...bedside,
  ...transfers,
];

/** @throws {PracticeError} `unknown-scenario`, with the names there are */
export function scenarioNamed(name: string): Scenario {
  const found = scenarios.find((one) => one.name === name);
  if (found === undefined) {
    throw new PracticeError(
      "unknown-scenario",
      `"${name}" is none of ${scenarios.map((one) => one.name).join(", ")}`,
    );
  }
  return found;
}
