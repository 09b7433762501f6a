/** From blood to stored light, with the truth about the probe. */
export { absorption, type ProbeColour } from "./absorption.js";
export { perfusionIndexOf, ratioOfRatios, textbookSaturation } from "./beat-light.js";
export { lightConstants } from "./constants.js";
export { createProbe, type Probe, type ProbeOptions, type ProbePlace, type ProbeState } from "./probe.js";
export { electronsPerSample } from "./receiver.js";
