/** Is this a capture to be believed? */
import { noTourniquet, onAVolunteer, protocolDecides, shortCuff, whoIsLeftOut } from "./cautions.js";
import { indexFingers, thumbs } from "./places.js";
import type { Scenario } from "./scenario.js";

export const captures: readonly Scenario[] = [
  {
    name: "quiet-pair",
    seconds: 120,
    jobs: ["two-sides", "teach"],
    teaches:
      "Two quiet sides look alike but never quite the same: finger pulses differ in size from beat to beat.",
    cautions: [],
    sites: indexFingers,
    rows: [{ at: 0, note: "both hands warm, level with the heart" }],
  },
  {
    name: "number-over-dead-trace",
    seconds: 150,
    jobs: ["believable-capture", "teach"],
    teaches:
      "A display goes on showing the last numbers for seconds after the wave has gone: watch the trace, not the number.",
    cautions: [onAVolunteer, whoIsLeftOut, shortCuff, protocolDecides],
    sites: indexFingers,
    rows: [
      { at: 60, site: "suspect", turn: "cuff", to: 190, over: 3 },
      { at: 60, note: "cuff up fast on the suspect arm" },
      { at: 110, site: "suspect", turn: "cuff", to: 0, over: 1 },
      { at: 110, note: "cuff down" },
    ],
  },
  {
    name: "rubbing-hand",
    seconds: 150,
    jobs: ["believable-capture"],
    teaches: "Rubbing to and fro about as often as the heart beats draws a wave that no heart made.",
    cautions: [],
    sites: indexFingers,
    rows: [
      { at: 0, site: "suspect", turn: "narrowing", to: 1 },
      { at: 0, site: "suspect", turn: "collateral", to: 1e6 },
      { at: 40, site: "suspect", turn: "rubbingRate", to: 74 },
      { at: 40, site: "suspect", turn: "rubbing", to: 3 },
      { at: 40, note: "the patient rubs the hurt hand" },
      { at: 100, site: "suspect", turn: "rubbing", to: 0 },
    ],
  },
  {
    name: "shaken-by-the-heart",
    seconds: 120,
    jobs: ["believable-capture"],
    teaches:
      "A beating body shakes a probe in step with the heart: a small early wave on both colours alike is not a pulse in the digit.",
    cautions: [noTourniquet, protocolDecides],
    sites: indexFingers,
    rows: [
      { at: 0, site: "suspect", turn: "narrowing", to: 1 },
      { at: 0, site: "suspect", turn: "collateral", to: 1e6 },
      { at: 0, site: "suspect", turn: "heartShake", to: 0.15 },
      { at: 0, note: "tourniquet above the suspect hand; the arm lies across the chest" },
    ],
  },
  {
    name: "varnish-and-cold",
    seconds: 150,
    jobs: ["believable-capture", "two-sides"],
    teaches:
      "A cold digit under dark varnish may hide a wave that is there: warm it, or take another digit, before calling it absent.",
    cautions: [],
    sites: indexFingers,
    rows: [
      { at: 0, site: "suspect", turn: "tone", to: 1.8 },
      { at: 0, site: "suspect", turn: "varnish", to: 0.9 },
      { at: 0, site: "suspect", turn: "photocurrent", to: 4 },
      { at: 90, site: "suspect", turn: "tone", to: 0, over: 40 },
      { at: 90, note: "the hand is wrapped and warmed" },
    ],
  },
  {
    name: "half-on",
    seconds: 150,
    jobs: ["believable-capture"],
    teaches:
      "A probe that slips, sits half on and at last falls off fails in three different ways; none of them is loss of pulse.",
    cautions: [],
    sites: thumbs,
    rows: [
      { at: 40, site: "suspect", turn: "slip", to: 0.25 },
      { at: 40, site: "suspect", turn: "shift", to: 0.5, over: 1 },
      { at: 40, note: "the probe slides sideways" },
      { at: 90, site: "suspect", turn: "contact", to: "off" },
      { at: 90, note: "the probe falls off" },
      { at: 120, site: "suspect", turn: "contact", to: "on" },
      { at: 120, site: "suspect", turn: "shift", to: 0 },
      { at: 120, note: "put back in place" },
    ],
  },
];
