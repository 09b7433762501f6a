/** What can be turned at the heart while the model runs. Ranges are those the model was tried over. */
import type { ControlRow } from "./control-row.js";

export const rhythms = ["sinus", "fibrillation", "steady-flow"] as const;
export type Rhythm = (typeof rhythms)[number];

export const heartRows = [
  { name: "rate", unit: "/min", min: 25, max: 220, rest: 70, what: "heart beats a minute" },
  {
    name: "variability",
    unit: "ms",
    min: 0,
    max: 120,
    rest: 35,
    what: "spread of the beat intervals at rest",
  },
  { name: "ectopics", unit: "1", min: 0, max: 0.5, rest: 0, what: "share of early ventricular beats" },
  { name: "breaths", unit: "/min", min: 4, max: 40, rest: 15, what: "breaths a minute" },
  { name: "breathing", unit: "1", min: 0, max: 4, rest: 1, what: "depth of breathing, 1 is quiet" },
  {
    name: "systolic",
    unit: "mm[Hg]",
    min: 50,
    max: 250,
    rest: 120,
    what: "wanted systolic pressure, upper arm",
  },
  {
    name: "diastolic",
    unit: "mm[Hg]",
    min: 25,
    max: 150,
    rest: 75,
    what: "wanted diastolic pressure, upper arm",
  },
  { name: "centralVenous", unit: "mm[Hg]", min: 0, max: 25, rest: 4, what: "pressure in the central veins" },
  { name: "saturation", unit: "%", min: 50, max: 100, rest: 97, what: "oxygen saturation of arterial blood" },
] as const satisfies readonly ControlRow[];

export type HeartControlName = (typeof heartRows)[number]["name"];

/** The values in force now, plain numbers in the row's unit; the model reads them each step. */
export type HeartControls = { [name in HeartControlName]: number } & { rhythm: Rhythm };
