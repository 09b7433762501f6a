/** Does it stay so? */
import { noTourniquet, protocolDecides } from "./cautions.js";
import { greatToes, indexFingers, toesAndHand } from "./places.js";
import type { Scenario } from "./scenario.js";

export const watching: readonly Scenario[] = [
  {
    name: "slow-swelling",
    seconds: 1800,
    jobs: ["watch"],
    teaches:
      "Tissue pressure climbs for twenty minutes and muscle starves while the wave at the toe stays: a wave does not exclude compartment syndrome.",
    cautions: [],
    sites: greatToes,
    rows: [
      { at: 60, site: "suspect", turn: "tissue", to: 35, over: 600 },
      { at: 660, site: "suspect", turn: "tissue", to: 70, over: 600 },
      { at: 660, note: "pain out of proportion, worse on stretch" },
    ],
  },
  {
    name: "tourniquet-lets-go",
    seconds: 300,
    jobs: ["watch", "two-sides"],
    teaches:
      "Under a tourniquet the wave must stay gone: pressure comes up with treatment, the band gives, and the wave that returns is the bad news.",
    cautions: [noTourniquet, protocolDecides],
    sites: indexFingers,
    rows: [
      { at: 0, turn: "systolic", to: 88 },
      { at: 0, turn: "diastolic", to: 55 },
      { at: 0, turn: "rate", to: 118 },
      { at: 45, site: "suspect", turn: "cuff", to: 140, over: 6 },
      { at: 45, note: "tourniquet on" },
      { at: 120, turn: "systolic", to: 128, over: 90 },
      { at: 120, turn: "diastolic", to: 78, over: 90 },
      { at: 120, turn: "rate", to: 96, over: 90 },
      { at: 120, note: "blood running" },
      { at: 150, site: "suspect", turn: "cuff", to: 112, over: 100 },
    ],
  },
  {
    name: "one-leg-fades",
    seconds: 900,
    jobs: ["watch", "two-sides"],
    teaches:
      "A slow clot on one side: size and delay drift apart over minutes, too slowly to see without the baseline.",
    cautions: [],
    sites: greatToes,
    rows: [
      { at: 120, site: "suspect", turn: "narrowing", to: 0.9, over: 240 },
      { at: 360, site: "suspect", turn: "narrowing", to: 0.99, over: 360 },
      { at: 780, site: "suspect", turn: "narrowing", to: 1 },
    ],
  },
  {
    name: "shock-on-the-way",
    seconds: 900,
    jobs: ["watch", "hand-over"],
    teaches:
      "Both toes and the hand weaken together while rate climbs: the body, not the limb. A third site tells them apart.",
    cautions: [],
    sites: toesAndHand,
    rows: [
      { at: 180, turn: "systolic", to: 84, over: 420 },
      { at: 180, turn: "diastolic", to: 56, over: 420 },
      { at: 180, turn: "rate", to: 128, over: 420 },
      { at: 180, site: "sound", turn: "tone", to: 1.6, over: 480 },
      { at: 180, site: "suspect", turn: "tone", to: 1.6, over: 480 },
      { at: 180, site: "control", turn: "tone", to: 1.2, over: 480 },
    ],
  },
  {
    name: "irregular-heart",
    seconds: 300,
    jobs: ["watch", "bedside-checks"],
    teaches:
      "In fibrillation weak beats never reach the finger: the pleth counts fewer than the heart makes, and no two waves are alike.",
    cautions: [],
    sites: indexFingers,
    rows: [
      { at: 0, turn: "rhythm", to: "fibrillation" },
      { at: 0, turn: "rate", to: 118 },
    ],
  },
  {
    name: "early-beats",
    seconds: 180,
    jobs: ["believable-capture"],
    teaches:
      "An early beat is small or missing at the finger and the next one is large: a gap of one beat is not a loss.",
    cautions: [],
    sites: indexFingers,
    rows: [{ at: 0, turn: "ectopics", to: 0.12 }],
  },
  {
    name: "on-a-pump",
    seconds: 180,
    jobs: ["watch", "two-sides"],
    teaches: "A pump drives blood without a pulse: here an absent wave means nothing, and must be marked so.",
    cautions: [],
    sites: toesAndHand,
    rows: [
      { at: 60, turn: "rhythm", to: "steady-flow" },
      { at: 60, note: "the pump takes over" },
    ],
  },
];
