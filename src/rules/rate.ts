/** When two pulse rates, or a pulse and a heart rate, do not belong together. */
import type { Rule } from "./rule.js";

export const rateRules = [
  {
    id: "rate.differs",
    text: "pulse rates of the two sides differ",
    measure: "pulse rate difference",
    comparator: ">",
    value: 5,
    unit: "/min",
    source: "common practice, no source: rate displays are held to 5 /min or 10 %, whichever is more",
    support: "common practice",
    date: "2026-11-25",
    note: "From memory. Counts only together with rate.differs-share.",
  },
  {
    id: "rate.differs-share",
    text: "pulse rates of the two sides differ",
    measure: "pulse rate difference, relative",
    comparator: ">",
    value: 10,
    unit: "%",
    source: "common practice, no source: rate displays are held to 5 /min or 10 %, whichever is more",
    support: "common practice",
    date: "2026-11-25",
    note: "From memory. Counts only together with rate.differs. Relative to the sound side.",
  },
  {
    id: "rate.deficit",
    text: "more heart beats than pulses, as in atrial fibrillation",
    measure: "pulse deficit",
    comparator: ">",
    value: 10,
    unit: "/min",
    source: "Rajkumar et al., 70 people",
    support: "published",
    date: "2026-11-25",
    note: "Excerpt read: sensitivity 62.8 %, specificity 85.7 %. Count a full minute.",
  },
] as const satisfies readonly Rule[];
