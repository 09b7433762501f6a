/** Does this side differ from that one? */
import { protocolDecides } from "./cautions.js";
import { greatToes, indexFingers } from "./places.js";
import type { Scenario } from "./scenario.js";

export const twoSides: readonly Scenario[] = [
  {
    name: "artery-shut",
    seconds: 150,
    jobs: ["two-sides", "watch"],
    teaches:
      "When the main artery shuts, the wave is gone within beats while the heart beats on; a thin late wave may creep round by collaterals.",
    cautions: [],
    sites: indexFingers,
    rows: [
      { at: 60, site: "suspect", turn: "narrowing", to: 1 },
      { at: 60, note: "the artery shuts" },
    ],
  },
  {
    name: "narrow-artery",
    seconds: 150,
    jobs: ["two-sides"],
    teaches: "A narrowing makes the wave later and rounder before it makes it much smaller.",
    cautions: [],
    sites: greatToes,
    rows: [{ at: 0, site: "suspect", turn: "narrowing", to: 0.95 }],
  },
  {
    name: "both-cold",
    seconds: 180,
    jobs: ["two-sides"],
    teaches:
      "Two weak sides are not two sides without a difference that matters: both weak has its own answer.",
    cautions: [],
    sites: indexFingers,
    rows: [
      { at: 0, site: "sound", turn: "tone", to: 2.2 },
      { at: 0, site: "suspect", turn: "tone", to: 2.2 },
      { at: 0, turn: "rate", to: 104 },
      { at: 0, turn: "systolic", to: 92 },
      { at: 0, turn: "diastolic", to: 60 },
    ],
  },
  {
    name: "blocked-side",
    seconds: 150,
    jobs: ["two-sides"],
    teaches:
      "A nerve block opens the vessels of the hurt side: its wave may look as large as the other while the artery is narrow.",
    cautions: [],
    sites: indexFingers,
    rows: [
      { at: 0, site: "suspect", turn: "tone", to: -1.2 },
      { at: 0, site: "suspect", turn: "narrowing", to: 0.93 },
      { at: 0, note: "arm blocked at the shoulder before the comparison" },
    ],
  },
  {
    name: "tight-splint",
    seconds: 240,
    jobs: ["two-sides", "watch"],
    teaches:
      "Take the reading before the splint and again after it: a wrap that is too tight shows in the second half of the pair.",
    cautions: [],
    sites: indexFingers,
    rows: [
      { at: 0, site: "suspect", turn: "tone", to: 0.3 },
      { at: 60, site: "suspect", turn: "knocks", to: 15 },
      { at: 60, note: "splint goes on" },
      { at: 90, site: "suspect", turn: "knocks", to: 0 },
      { at: 90, site: "suspect", turn: "band", to: 60, over: 10 },
      { at: 90, site: "suspect", turn: "tissue", to: 55, over: 10 },
      { at: 180, note: "wrap loosened" },
      { at: 180, site: "suspect", turn: "band", to: 0, over: 5 },
      { at: 180, site: "suspect", turn: "tissue", to: 10, over: 10 },
    ],
  },
  {
    name: "bent-ankle",
    seconds: 240,
    jobs: ["two-sides", "bedside-checks"],
    teaches:
      "A pulseless bent ankle: keep the pleth running through the one try at straightening; a wave that comes back can fade again.",
    cautions: [protocolDecides],
    sites: greatToes,
    rows: [
      { at: 0, site: "suspect", turn: "narrowing", to: 1 },
      { at: 0, site: "suspect", turn: "collateral", to: 4000 },
      { at: 80, site: "suspect", turn: "drift", to: 8 },
      { at: 80, note: "traction and straightening" },
      { at: 95, site: "suspect", turn: "drift", to: 0.1 },
      { at: 95, site: "suspect", turn: "narrowing", to: 0.6, over: 4 },
      { at: 180, site: "suspect", turn: "narrowing", to: 0.985, over: 30 },
      { at: 200, note: "the splint is bound on" },
    ],
  },
];
