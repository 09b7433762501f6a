/** What SpO2 can add to a comparison of sides: little. */
import type { Rule } from "./rule.js";

export const saturationRules = [
  {
    id: "spo2.side",
    text: "SpO2 differs between the sides",
    measure: "SpO2, sound minus suspect",
    comparator: ">",
    value: 2,
    unit: "%",
    source: "Parameswaran et al., Arch Intern Med 2005;165:442",
    support: "published",
    date: "2026-11-25",
    note: "Weak: 6 of 50 healthy people differed by 2 % (Mars et al., S Afr J Surg 1994;32:48), and a later series of 223 found sensitivity 42.6 %, specificity 79.1 % (Ena et al., J Diabetes Mellitus 2013;3(2)). Meant for toe against finger.",
  },
  {
    id: "spo2.injured-limb",
    text: "SpO2 of the injured limb as low as with hurt vessels",
    measure: "SpO2, injured limb",
    comparator: "<",
    value: 96,
    unit: "%",
    source: "Kwasnicki et al., J Plast Reconstr Aesthet Surg 2022;75:3182",
    support: "published",
    date: "2026-11-25",
    note: "Abstract read: 99 limb injuries, cut-off 95.5 %, sensitivity 78 %, specificity 90 %. Low oxygen in the whole body lowers it too; a value above excludes nothing.",
  },
  {
    id: "spo2.age",
    text: "the shown number is old",
    measure: "age of a shown number",
    comparator: ">",
    value: 30,
    unit: "s",
    source: "ISO 80601-2-61:2017, 201.12.4.101",
    support: "working default",
    date: "2026-11-25",
    note: "From memory, unchecked.",
  },
] as const satisfies readonly Rule[];
