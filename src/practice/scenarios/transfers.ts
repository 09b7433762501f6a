/** On the road, handed over, and looked at again afterwards. */
import { greatToes, indexFingers } from "./places.js";
import type { Scenario } from "./scenario.js";

export const transfers: readonly Scenario[] = [
  {
    name: "rough-road",
    seconds: 600,
    jobs: ["watch", "believable-capture"],
    teaches:
      "A shaking vehicle hides the wave for minutes: unreadable is an answer, and the last good time is what counts.",
    cautions: [],
    sites: indexFingers,
    rows: [
      { at: 90, site: "sound", turn: "transport", to: 2.5, over: 5 },
      { at: 90, site: "suspect", turn: "transport", to: 2.5, over: 5 },
      { at: 90, note: "gravel" },
      { at: 240, site: "sound", turn: "transport", to: 0.1, over: 5 },
      { at: 240, site: "suspect", turn: "transport", to: 0.1, over: 5 },
      { at: 300, site: "suspect", turn: "knocks", to: 25 },
      { at: 420, site: "suspect", turn: "narrowing", to: 1 },
      { at: 420, note: "the splinted arm slides off the stretcher" },
      { at: 480, site: "suspect", turn: "knocks", to: 0 },
    ],
  },
  {
    name: "crew-change",
    seconds: 720,
    jobs: ["hand-over", "watch"],
    teaches:
      "The probe comes off at handover and goes back on another digit: baseline and time of the gap must travel with the patient.",
    cautions: [],
    sites: greatToes,
    rows: [
      { at: 0, site: "suspect", turn: "narrowing", to: 0.85 },
      { at: 300, site: "suspect", turn: "contact", to: "unplugged" },
      { at: 300, site: "sound", turn: "contact", to: "unplugged" },
      { at: 300, note: "handover: probes unplugged" },
      { at: 390, site: "sound", turn: "contact", to: "on" },
      { at: 390, site: "suspect", turn: "contact", to: "on" },
      { at: 390, site: "suspect", turn: "shift", to: 0.2 },
      { at: 390, note: "next crew, own probes" },
      { at: 520, site: "suspect", turn: "narrowing", to: 0.97, over: 120 },
    ],
  },
  {
    name: "night-transfer",
    seconds: 2400,
    jobs: ["look-back", "watch"],
    teaches:
      "Forty minutes to review: find the loss, what came before it, and how long nobody could have seen it.",
    cautions: [],
    sites: indexFingers,
    rows: [
      { at: 0, site: "suspect", turn: "tone", to: 0.4 },
      { at: 300, site: "suspect", turn: "transport", to: 1.2, over: 10 },
      { at: 300, site: "sound", turn: "transport", to: 1.2, over: 10 },
      { at: 780, site: "suspect", turn: "transport", to: 0, over: 10 },
      { at: 780, site: "sound", turn: "transport", to: 0, over: 10 },
      { at: 900, site: "suspect", turn: "tissue", to: 45, over: 900 },
      { at: 1260, site: "suspect", turn: "contact", to: "off" },
      { at: 1260, note: "nobody sees the probe fall" },
      { at: 1500, site: "suspect", turn: "narrowing", to: 1 },
      { at: 1620, site: "suspect", turn: "contact", to: "on" },
      { at: 1620, note: "probe back on: no wave" },
      { at: 2100, site: "suspect", turn: "narrowing", to: 0.4, over: 10 },
      { at: 2100, note: "splint cut, arm straightened" },
    ],
  },
];
