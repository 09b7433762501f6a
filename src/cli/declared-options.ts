/** What the medic declares about the two sides, in options. Not stated stays not stated. */
import { type Declared, nothingDeclared, nothingKnown, type SideContext } from "../limb/index.js";
import { type Mechanism, mechanisms } from "../rules/index.js";
import { type Given, type Option, oneOf } from "./arguments.js";

const sides = ["sound", "suspect", "both", "neither"] as const;
const sideWords = "SIDE";
const answers = ["yes", "no"] as const;

export const declaredOptions: readonly Option[] = [
  { name: "cuff", value: sideWords, help: "a cuff or tourniquet above the probe on that side" },
  { name: "cold", value: sideWords, help: "the digit is cold" },
  { name: "block", value: sideWords, help: "nerve block, epidural or other loss of vessel tone" },
  { name: "covered", value: sideWords, help: "varnish, dirt, blood or dressing under the probe" },
  { name: "raised", value: sideWords, help: "the site lies above the heart" },
  { name: "lowered", value: sideWords, help: "the site lies below the heart" },
  { name: "pump", value: "yes|no", help: "patient on a pump or without pulsatile flow" },
  { name: "sound-hurt", value: "yes|no", help: "the side taken as sound is hurt as well" },
  {
    name: "same-digit",
    value: "yes|no",
    help: "both probes on the same digit, where the sites are not named",
  },
  { name: "same-height", value: "yes|no", help: "both sites at one height" },
  { name: "same-probe", value: "yes|no", help: "the same kind of probe on both sides" },
  {
    name: "mechanism",
    value: "HOW",
    help: `how the limb was hurt: ${mechanisms.map((row) => row.id).join(", ")}; not stated counts as one that can swell`,
  },
];

const conditions = ["cuff", "cold", "block", "covered"] as const;

function statedFor(given: Given, option: string, side: "sound" | "suspect"): boolean | null {
  const word = oneOf(given, option, sides);
  return word === null ? null : word === side || word === "both";
}

function yes(given: Given, option: string): boolean | null {
  const word = oneOf(given, option, answers);
  return word === null ? null : word === "yes";
}

function heightOf(given: Given, side: "sound" | "suspect"): Declared["height"] {
  const raised = statedFor(given, "raised", side);
  const lowered = statedFor(given, "lowered", side);
  if (raised === true) return "above";
  if (lowered === true) return "below";
  return raised === false && lowered === false ? "at heart" : null;
}

/** @throws {Stop} usage */
export function declaredOf(given: Given, side: "sound" | "suspect"): Declared {
  const stated = Object.fromEntries(conditions.map((name) => [name, statedFor(given, name, side)]));
  return { ...nothingDeclared, ...stated, pump: yes(given, "pump"), height: heightOf(given, side) };
}

/** @throws {Stop} usage */
export function contextOf(given: Given, oneClock: boolean): SideContext {
  const mechanism = oneOf(
    given,
    "mechanism",
    mechanisms.map((row): Mechanism => row.id),
  );
  return {
    ...nothingKnown,
    oneClock,
    mechanism,
    sameDigit: yes(given, "same-digit"),
    sameHeight: yes(given, "same-height"),
    sameProbe: yes(given, "same-probe"),
    soundHurt: yes(given, "sound-hurt"),
  };
}
