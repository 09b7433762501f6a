/** Inks of the pictures: quiet paper, one ink and hatch per side, no green. */
export const inks = {
  paper: "#faf8f2",
  sheet: "#fffefa",
  ink: "#1c2030",
  soft: "#5d6273",
  rule: "#d9d4c6",
  sound: "#3b4a8c",
  suspect: "#a4521f",
  suspectHatch: "#c97b45",
} as const;

/** Which limb a picture or a column speaks of; `unstated` where nobody has said. */
export type Role = "sound" | "suspect" | "unstated";

export function inkOf(role: Role): string {
  return role === "unstated" ? inks.ink : inks[role];
}

export const fontFamily = "'Atkinson Hyperlegible Next', 'Atkinson Hyperlegible', Verdana, sans-serif";

/** Smallest type in any picture, px at the picture's own width. */
export const smallType = 14;
