/**
 * How a limb was hurt, and whether that can swell it (S11): then a pulse wave does not
 * exclude a compartment syndrome, and this is said beside the verdict, each time.
 */
export interface MechanismRow {
  readonly id: string;
  readonly text: string;
  readonly swells: boolean;
  readonly source: string;
  readonly support: "published" | "common practice" | "working default";
}

const practice = "common practice, no source";

export const mechanisms = [
  {
    id: "fracture",
    text: "broken bone",
    swells: true,
    source: "Schmidt et al., J Orthop Trauma 2017: 11 to 18 % of high-energy tibial fractures",
    support: "published",
  },
  { id: "dislocation", text: "dislocated joint", swells: true, source: practice, support: "common practice" },
  { id: "crush", text: "crush or entrapment", swells: true, source: practice, support: "common practice" },
  { id: "burn", text: "burn round a limb", swells: true, source: practice, support: "common practice" },
  { id: "bite", text: "bite or sting", swells: true, source: practice, support: "common practice" },
  {
    id: "reperfusion",
    text: "blood let back in after a tourniquet, a clot or a trapped limb",
    swells: true,
    source: practice,
    support: "common practice",
  },
  {
    id: "tight-wrap",
    text: "cast, splint or wrap",
    swells: true,
    source: practice,
    support: "common practice",
  },
  {
    id: "penetrating",
    text: "cut, stab or shot",
    swells: true,
    source: practice,
    support: "common practice",
  },
  {
    id: "frostbite",
    text: "frostbite",
    swells: true,
    source: "ours: rewarming swells the tissue",
    support: "working default",
  },
  {
    id: "blocked-artery",
    text: "cold limb without a blow",
    swells: true,
    source: "ours: swelling follows when blood returns",
    support: "working default",
  },
  {
    id: "line-or-device",
    text: "line, band or pump in the limb",
    swells: true,
    source: "ours: bleeding into the limb can swell it",
    support: "working default",
  },
  {
    id: "practice",
    text: "practice on a healthy volunteer",
    swells: false,
    source: "ours",
    support: "working default",
  },
] as const satisfies readonly MechanismRow[];

export type Mechanism = (typeof mechanisms)[number]["id"];

/** Whether swelling must be reckoned with; an unknown mechanism counts as one that can swell. */
export function canSwell(mechanism: Mechanism | null): boolean {
  return mechanism === null || mechanisms.some((row) => row.id === mechanism && row.swells);
}
