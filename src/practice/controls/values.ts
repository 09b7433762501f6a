/** Resting values, and the gate every new value passes. */
import { PracticeError } from "../errors.js";
import type { ControlRow } from "./control-row.js";
import { type HeartControls, heartRows, rhythms } from "./heart-controls.js";
import { contacts, type SiteControls, siteRows } from "./site-controls.js";

function atRest(rows: readonly ControlRow[]): Record<string, number> {
  return Object.fromEntries(rows.map((row) => [row.name, row.rest]));
}

export function restingHeart(): HeartControls {
  return { ...atRest(heartRows), rhythm: "sinus" } as HeartControls;
}

export function restingSite(): SiteControls {
  return { ...atRest(siteRows), contact: "on" } as SiteControls;
}

const choices: Readonly<Record<string, readonly string[]>> = { rhythm: rhythms, contact: contacts };

/**
 * Holds a value against the row of its name.
 * @throws {PracticeError} `unknown-control`, `out-of-range`, `unknown-choice`
 */
export function checkControl(rows: readonly ControlRow[], name: string, value: number | string): void {
  const words = choices[name];
  if (words !== undefined) {
    if (words.includes(String(value))) return;
    throw new PracticeError("unknown-choice", `${name} ${value} is none of ${words.join(", ")}`);
  }
  const row = rows.find((one) => one.name === name);
  if (row === undefined) {
    throw new PracticeError(
      "unknown-control",
      `${name} is none of ${rows.map((one) => one.name).join(", ")}`,
    );
  }
  if (typeof value !== "number" || !(value >= row.min && value <= row.max)) {
    throw new PracticeError(
      "out-of-range",
      `${name} ${value} is not within ${row.min} to ${row.max} ${row.unit}`,
    );
  }
}
