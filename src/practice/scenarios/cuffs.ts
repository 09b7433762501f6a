/** A systolic pressure read by the wave. */
import { onAVolunteer, protocolDecides, shortCuff, whoIsLeftOut } from "./cautions.js";
import { indexFingers, toesAndHand } from "./places.js";
import type { Scenario } from "./scenario.js";

const cautions = [onAVolunteer, whoIsLeftOut, shortCuff, protocolDecides];

export const cuffs: readonly Scenario[] = [
  {
    name: "cuff-by-wave",
    seconds: 240,
    jobs: ["cuff-pressure", "teach"],
    teaches:
      "Up fast, down at 2 to 3 mmHg a second: the wave returns a little below systolic; twice, and the mean of loss and return.",
    cautions,
    sites: indexFingers,
    rows: [
      { at: 30, site: "suspect", turn: "cuff", to: 160, over: 20 },
      { at: 52, site: "suspect", turn: "cuff", to: 60, over: 40 },
      { at: 92, site: "suspect", turn: "cuff", to: 0, over: 1 },
      { at: 150, site: "suspect", turn: "cuff", to: 160, over: 20 },
      { at: 172, site: "suspect", turn: "cuff", to: 60, over: 40 },
      { at: 212, site: "suspect", turn: "cuff", to: 0, over: 1 },
    ],
  },
  {
    name: "cuff-too-slow",
    seconds: 240,
    jobs: ["cuff-pressure"],
    teaches:
      "A cuff pumped up slowly fills the veins and the wave is lost too early: fast up, or the reading is worth little.",
    cautions,
    sites: indexFingers,
    rows: [
      { at: 30, site: "suspect", turn: "cuff", to: 160, over: 130 },
      { at: 165, site: "suspect", turn: "cuff", to: 0, over: 60 },
    ],
  },
  {
    name: "cuff-in-fibrillation",
    seconds: 200,
    jobs: ["cuff-pressure"],
    teaches:
      "With an irregular heart each beat has its own systolic: one deflation says little, several and their spread say more.",
    cautions,
    sites: indexFingers,
    rows: [
      { at: 0, turn: "rhythm", to: "fibrillation" },
      { at: 0, turn: "rate", to: 92 },
      { at: 30, site: "suspect", turn: "cuff", to: 170, over: 8 },
      { at: 45, site: "suspect", turn: "cuff", to: 50, over: 48 },
      { at: 93, site: "suspect", turn: "cuff", to: 0, over: 1 },
      { at: 130, site: "suspect", turn: "cuff", to: 170, over: 8 },
      { at: 145, site: "suspect", turn: "cuff", to: 50, over: 48 },
      { at: 193, site: "suspect", turn: "cuff", to: 0, over: 1 },
    ],
  },
  {
    name: "arm-and-leg",
    seconds: 240,
    jobs: ["cuff-pressure", "two-sides"],
    teaches:
      "One cuff pressure at the ankle over one at the arm gives the pressure index; below 0.9 the artery is in question.",
    cautions,
    sites: toesAndHand,
    rows: [
      { at: 0, site: "suspect", turn: "narrowing", to: 0.94 },
      { at: 30, site: "control", turn: "cuff", to: 165, over: 6 },
      { at: 40, site: "control", turn: "cuff", to: 50, over: 46 },
      { at: 86, site: "control", turn: "cuff", to: 0, over: 1 },
      { at: 130, site: "suspect", turn: "cuff", to: 165, over: 6 },
      { at: 140, site: "suspect", turn: "cuff", to: 40, over: 50 },
      { at: 190, site: "suspect", turn: "cuff", to: 0, over: 1 },
    ],
  },
];
