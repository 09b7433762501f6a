/** When one side's pulse comes late. All at equal height: raising one limb alone shifts 38 to 49 ms. */
import type { Rule } from "./rule.js";

const jago = "Jago, Murray, Clin Phys Physiol Meas 1988;9:319";
const erts = "Erts, Spigulis, Kukulis, Ozols, Physiol Meas 2005;26:865";
const heights =
  "Same height on both sides: raising one limb shifted the difference by 38 ms (arm) and 49 ms (leg) in the 1988 series.";

export const delayRules = [
  {
    id: "delay.finger",
    text: "the suspect finger's pulse comes later than healthy hands differ",
    measure: "delay, fingers",
    comparator: ">",
    value: 20,
    unit: "ms",
    source: jago,
    support: "published",
    date: "2026-11-25",
    note: `Abstract read; authors from memory. Smallest change of the right-left difference detectable at 95 %, 10 healthy people. ${heights}`,
  },
  {
    id: "delay.toe-detectable",
    text: "the difference between two toes has changed by more than it varies",
    measure: "delay, toes",
    comparator: ">",
    value: 30,
    unit: "ms",
    source: jago,
    support: "published",
    date: "2026-11-25",
    note: `Abstract read; authors from memory. ${heights}`,
  },
  {
    id: "delay.leg-grey",
    text: "the suspect toe's pulse comes later than in healthy legs; may or may not mean a narrowing",
    measure: "delay, toes",
    comparator: ">",
    value: 14,
    unit: "ms",
    source: erts,
    support: "published",
    date: "2026-11-25",
    note: `Abstract read; reference from memory. Grey from 14 to 32 ms (23 ± 9 ms). ${heights}`,
  },
  {
    id: "delay.leg-certain",
    text: "the suspect toe's pulse comes as late as only narrowed leg arteries make it",
    measure: "delay, toes",
    comparator: ">",
    value: 32,
    unit: "ms",
    source: erts,
    support: "published",
    date: "2026-11-25",
    note: `Abstract read; reference from memory. 20 controls, 45 narrowed legs: old artery disease, not injury. ${heights}`,
  },
  {
    id: "delay.shapes-disagree",
    text: "delay by foot and delay by shape disagree, so the shapes differ and the delay is doubtful",
    measure: "delay by foot minus delay by shape",
    comparator: ">",
    value: 15,
    unit: "ms",
    source: "ours: about three SDs of the 20-beat median foot on two real recordings (4.1 and 5.4 ms)",
    support: "working default",
    date: "2026-11-25",
    note: "Held against the size of the disagreement, sign left out.",
  },
  {
    id: "rise-time.great-toe",
    text: "the toe pulse rises slowly, as in artery disease of the leg",
    measure: "rise time, great toe",
    comparator: ">",
    value: 270,
    unit: "ms",
    source: "Physiol Meas 2019, PMID 31479424",
    support: "published",
    date: "2026-11-25",
    note: "Abstract read: 110 people over 40, sensitivity 95.8 %, specificity 80.6 %. Others found 160 and 240 ms: definition, filter and site matter.",
  },
] as const satisfies readonly Rule[];
