/** Limits on the perfusion index and on its ratio between two sides. */
import type { Rule } from "./rule.js";

/**
 * How the side limit came about. One finger's log PI spreads between people with SD 0.78
 * (mean 2.2, SD 2.0 of 108 volunteers, as a log-normal: sqrt(ln(1 + (2.0/2.2)²)); from memory).
 * Of that variance 0.474 is shared by the fingers of one person (ICC, 391 adults), so the log
 * ratio of two fingers has SD 0.78 × sqrt(2 × (1 − 0.474)) = 0.80, and 2.5 % of healthy pairs
 * lie below exp(−1.96 × 0.80) = 0.21. Rounded to the strict side: 0.20.
 */
export const logRatioScatter = 0.8;

const derivation =
  "ours: two fingers of one healthy hand have log-ratio SD 0.80 (ICC 0.474, Swain et al., Cureus 2022; spread of PI in volunteers, Lima et al., Crit Care Med 2002;30(6)), exp(-1.96 x 0.80) = 0.21, rounded to the strict side";

const noPublishedLimit =
  "No published PI-ratio limit exists for arterial injury. Mean and SD of the volunteers are from memory. Fingers of one hand stand in for the same finger of both hands, for which no figure was found.";

export const perfusionIndexRules = [
  {
    id: "pi.low",
    text: "PI below the cut-off used in the critically ill",
    measure: "perfusion index",
    comparator: "<",
    value: 1.4,
    unit: "%",
    source: "Lima, Beelen, Bakker, Crit Care Med 2002;30(6)",
    support: "published",
    date: "2026-11-25",
    note: "Abstract read. 1.4 is also the median of the 108 healthy volunteers, so half of them fall below it. The paper gives the value; strictly below is our choice.",
  },
  {
    id: "pi.both-weak",
    text: "PI low on both sides, so neither is a reference",
    measure: "perfusion index, both sides",
    comparator: "<",
    value: 0.3,
    unit: "%",
    source: "lower end of the healthy range in Lima, Beelen, Bakker, Crit Care Med 2002;30(6)",
    support: "working default",
    date: "2026-11-25",
    note: "The range 0.3 to 10 is from memory, unchecked. Held against the larger of the two.",
  },
  {
    id: "pi-ratio.weaker",
    text: "the suspect side's pulses are smaller than finger-to-finger scatter explains",
    measure: "perfusion index, suspect over sound",
    comparator: "<",
    value: 0.2,
    unit: "1",
    source: derivation,
    support: "working default",
    date: "2026-11-25",
    note: `${noPublishedLimit} Close to the one published side figure (pi-ratio.replanted: a fall of 80.49 % is a ratio of 0.195).`,
  },
  {
    id: "pi-ratio.stronger",
    text: "the side taken as sound has much the smaller pulses",
    measure: "perfusion index, suspect over sound",
    comparator: ">",
    value: 5,
    unit: "1",
    source: "ours: mirror of pi-ratio.weaker, 1 / 0.20",
    support: "working default",
    date: "2026-11-25",
    note: "Sides mixed up, a block or warmth on the suspect side, or the sound side is hurt too.",
  },
  {
    id: "pi-ratio.unlike-low",
    text: "the suspect side's pulses are smaller, though fingers of one healthy hand can differ as much",
    measure: "perfusion index, suspect over sound",
    comparator: "<",
    value: 0.5,
    unit: "1",
    source: "ours: about one SD of healthy finger scatter, exp(-0.80) = 0.45, rounded to the strict side",
    support: "working default",
    date: "2026-11-25",
    note: "Between this and pi-ratio.weaker the answer is: cannot tell.",
  },
  {
    id: "pi-ratio.unlike-high",
    text: "the suspect side's pulses are larger, which a block, warmth or a release explains",
    measure: "perfusion index, suspect over sound",
    comparator: ">",
    value: 2,
    unit: "1",
    source: "ours: mirror of pi-ratio.unlike-low, 1 / 0.5",
    support: "working default",
    date: "2026-11-25",
  },
  {
    id: "pi-ratio.replanted",
    text: "PI of a replanted digit fell so far below its control that loss was foretold",
    measure: "perfusion index, fall from control digit",
    comparator: ">",
    value: 80.49,
    unit: "%",
    source: "doi 10.3233/ch-238120",
    support: "published",
    date: "2026-11-25",
    note: "Abstract read: 31 patients, specificity 100 %, sensitivity 75 %. Replanted digits only; no claim for an injured limb.",
  },
  {
    id: "pi-ratio.toe-finger",
    text: "toe pulses small against finger pulses, as in artery disease of the legs",
    measure: "perfusion index, toe over finger",
    comparator: "<",
    value: 0.417,
    unit: "1",
    source: "medRxiv preprint on ankle-brachial index and PPG, 130 adults at high risk, duplex as reference",
    support: "published",
    date: "2026-11-25",
    note: "A preprint, abstract read; sensitivity 78.4 %. Old artery disease, not injury.",
  },
  {
    id: "pi-fall.radial",
    text: "PI falls so far on pressing the radial artery that the ulnar side seems not to fill the hand",
    measure: "perfusion index, fall on radial compression",
    comparator: ">",
    value: 65.7,
    unit: "%",
    source: "Al-metwalli, Anaesth Pain Intensive Care",
    support: "published",
    date: "2026-11-25",
    note: "Abstract read: 84 hands of which only 3 were diseased; positive predictive value about 75 %.",
  },
  {
    id: "pi-ratio.block",
    text: "PI rose as it does after a nerve block",
    measure: "perfusion index, 10 min after block over before",
    comparator: ">",
    value: 1.4,
    unit: "1",
    source: "Abdelnasser et al., Br J Anaesth 2017;119:276",
    support: "published",
    date: "2026-11-25",
    note: "77 supraclavicular blocks, taken with PI above 3.3. A block raises PI and can hide poor inflow.",
  },
] as const satisfies readonly Rule[];
