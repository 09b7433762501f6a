/** When a wave at the heart's beat counts as found, and when its absence counts. */
import type { Rule } from "./rule.js";

const calibration =
  "ours: false alarms of the presence test on noise and on real recordings with the pulse taken out (0.5 to 0.8 % at a nominal 0.1 %)";

export const presenceRules = [
  {
    id: "presence.found",
    text: "a pulse wave at the heart's beat is detected",
    measure: "presence p",
    comparator: "<",
    value: 0.001,
    unit: "1",
    source: calibration,
    support: "working default",
    date: "2026-11-25",
    note: "The price of searching over delay or rate is in p already. Delay and shape must be plausible too.",
  },
  {
    id: "presence.likely",
    text: "a pulse wave at the heart's beat is likely",
    measure: "presence p",
    comparator: "<",
    value: 0.01,
    unit: "1",
    source: calibration,
    support: "working default",
    date: "2026-11-25",
    note: "1.9 % (10 s) and 2.7 % (20 s) of real recordings with the pulse taken out still get here.",
  },
  {
    id: "absent.hidden-share",
    text: "a wave large enough to matter could still hide in the noise",
    measure: "hidden wave over sound side",
    comparator: ">=",
    value: 0.2,
    unit: "1",
    source:
      "ours: the same share as pi-ratio.weaker; a hidden wave below it would itself count as weaker, so absence is never claimed where a wave within finger scatter could hide",
    support: "working default",
    date: "2026-11-25",
    note: "Held against the upper 95 % end of the hidden size and the lower 95 % end of the sound side's PI.",
  },
] as const satisfies readonly Rule[];
