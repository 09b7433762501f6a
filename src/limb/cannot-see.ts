/** What no comparison of two pleths can see; said with every verdict. */
import { canSwell, type Mechanism } from "../rules/index.js";

/** The S11 sentence, word for word wherever a verdict is shown. */
export const compartmentWarning =
  "a compartment syndrome: the limb can swell, and a pulse wave does not exclude one";

/** Never empty; the compartment warning comes first wherever the limb can swell or nobody said how it was hurt. */
export function cannotSee(mechanism: Mechanism | null): string[] {
  return [
    ...(canSwell(mechanism) ? [compartmentWarning] : []),
    "how much blood flows: a wave shows that a pulse arrives, not how much blood does",
    "tissue deeper than the skin, and any part beyond or beside the probe",
    "a small tear or a torn lining of an artery whose pulse still passes",
    "harm to veins and nerves",
    "a change after these seconds",
  ];
}
