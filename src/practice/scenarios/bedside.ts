/** Checks done with a hand, a height or a clock. */
import {
  onAVolunteer,
  pressGently,
  protocolDecides,
  raiseGently,
  shortCuff,
  whoIsLeftOut,
} from "./cautions.js";
import { indexFingers, thumbs } from "./places.js";
import type { Scenario } from "./scenario.js";

export const bedside: readonly Scenario[] = [
  {
    name: "arch-open",
    seconds: 150,
    jobs: ["bedside-checks"],
    teaches: "With a complete palmar arch the thumb keeps its wave while the radial artery is pressed shut.",
    cautions: [pressGently, protocolDecides],
    sites: thumbs,
    rows: [
      { at: 40, site: "suspect", turn: "radialPress", to: 1 },
      { at: 40, note: "radial artery pressed" },
      { at: 100, site: "suspect", turn: "radialPress", to: 0 },
    ],
  },
  {
    name: "arch-broken",
    seconds: 210,
    jobs: ["bedside-checks"],
    teaches:
      "With a broken arch the thumb loses its wave when the radial artery is pressed, and it does not come back within two minutes.",
    cautions: [pressGently, protocolDecides],
    sites: thumbs,
    rows: [
      { at: 0, site: "suspect", turn: "arch", to: 5000 },
      { at: 40, site: "suspect", turn: "radialPress", to: 1 },
      { at: 40, note: "radial artery pressed" },
      { at: 175, site: "suspect", turn: "radialPress", to: 0 },
    ],
  },
  {
    name: "raised-and-lowered",
    seconds: 240,
    jobs: ["bedside-checks", "teach"],
    teaches: "Height alone changes size and delay: hold both hands level before you compare.",
    cautions: [raiseGently],
    sites: indexFingers,
    rows: [
      { at: 60, site: "suspect", turn: "height", to: 45, over: 3 },
      { at: 60, note: "hand raised" },
      { at: 120, site: "suspect", turn: "height", to: 0, over: 3 },
      { at: 160, site: "suspect", turn: "height", to: -45, over: 3 },
      { at: 160, note: "hand hung down" },
      { at: 215, site: "suspect", turn: "height", to: 0, over: 3 },
    ],
  },
  {
    name: "after-the-release",
    seconds: 660,
    jobs: ["bedside-checks", "watch"],
    teaches:
      "After minutes without blood the wave returns larger than before: an overshoot is no measure of the way the artery will be.",
    cautions: [onAVolunteer, whoIsLeftOut, shortCuff, protocolDecides],
    sites: indexFingers,
    rows: [
      { at: 60, site: "suspect", turn: "cuff", to: 200, over: 2 },
      { at: 360, site: "suspect", turn: "cuff", to: 0, over: 1 },
      { at: 360, note: "released after five minutes" },
    ],
  },
  {
    name: "vein-band",
    seconds: 200,
    jobs: ["bedside-checks", "teach"],
    teaches: "A band that closes veins only shrinks the wave and darkens the digit while the artery is open.",
    cautions: [onAVolunteer, whoIsLeftOut, protocolDecides],
    sites: indexFingers,
    rows: [
      { at: 50, site: "suspect", turn: "band", to: 40, over: 3 },
      { at: 140, site: "suspect", turn: "band", to: 0, over: 1 },
    ],
  },
];
