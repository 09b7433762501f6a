/** Pairs of sites that scenarios share. Which side is hurt is drawn by the story, not by the tool (S4). */
import type { PracticeSite } from "../person/site.js";
import type { Role } from "./scenario.js";

type Places = readonly { readonly role: Role; readonly at: PracticeSite }[];

export const indexFingers: Places = [
  { role: "sound", at: { side: "right", digit: "index finger" } },
  { role: "suspect", at: { side: "left", digit: "index finger" } },
];

export const thumbs: Places = [
  { role: "sound", at: { side: "left", digit: "thumb" } },
  { role: "suspect", at: { side: "right", digit: "thumb" } },
];

export const greatToes: Places = [
  { role: "sound", at: { side: "left", digit: "great toe" } },
  { role: "suspect", at: { side: "right", digit: "great toe" } },
];

/** Both toes and a hand: tells a leg in trouble from a body in trouble. */
export const toesAndHand: Places = [
  ...greatToes,
  { role: "control", at: { side: "left", digit: "middle finger" } },
];
