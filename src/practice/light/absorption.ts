/** How much light blood takes. Knows nothing of probes. */
import { lightConstants as c } from "./constants.js";

export type ProbeColour = "infrared" | "red";

/** Molar concentration in mol/L times ln 10: from decadic molar extinction to natural absorption. */
const molar = (Math.LN10 * c.haemoglobin.value) / c.haemoglobinMass.value;

export const infraredOxy = molar * c.oxyInfrared.value;
export const infraredDeoxy = molar * c.deoxyInfrared.value;
/** Red includes its longer way through the same blood. */
export const redOxy = molar * c.oxyRed.value * c.redPath.value;
export const redDeoxy = molar * c.deoxyRed.value * c.redPath.value;

/**
 * Natural absorption per cm of blood on the infrared light's way: ln of light falls by this times the path.
 *
 * @param saturation share of haemoglobin that carries oxygen, 0 to 1
 * @see A. Beer, "Bestimmung der Absorption des rothen Lichts in farbigen Flüssigkeiten", 1852, for the law; the
 *   figures are the rows of `lightConstants`
 */
export function absorption(colour: ProbeColour, saturation: number): number {
  return colour === "infrared"
    ? infraredDeoxy + (infraredOxy - infraredDeoxy) * saturation
    : redDeoxy + (redOxy - redDeoxy) * saturation;
}
