/** A factor written into the label of a number, `PI x10`: what is stored is ten times what was measured. */
import type { ChannelKind } from "../model/index.js";

const numberKinds: ReadonlySet<ChannelKind> = new Set<ChannelKind>(["spo2", "pulse-rate", "perfusion-index"]);

/**
 * What stored numbers must be divided by: 10 for `PI x10`, `PI*10`, `PI ×10`; 0.1 for `PI /10`; 1 for any other label.
 * Only numbers a device prints (SpO2, rate, perfusion index), and only where no unit says what they are.
 */
export function labelFactor(name: string, unit: string, kind: ChannelKind): number {
  if (unit !== "" || !numberKinds.has(kind)) return 1;
  const got = /(?<![a-z])(x)\s?(10{1,4})$|([*×/])\s?(10{1,4})$/i.exec(name.trim());
  if (got === null) return 1;
  const size = Number(got[2] ?? got[4]);
  return got[3] === "/" ? 1 / size : size;
}
