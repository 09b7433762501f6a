/** How limbs differ, as factors on the constants of the arm. */
export const places = ["finger", "thumb", "toe", "ear"] as const;
export type Place = (typeof places)[number];

export interface PlaceRow {
  /** Aorta to the limb, s. Set to foot times after R: ear 133, thumb 199, toe 301 ms (Allen and Murray 2000). */
  readonly delay: number;
  /** On inertance, resistance and compliance of both sections. */
  readonly inertance: number;
  readonly resistance: number;
  readonly compliance: number;
  /** Arterial path in the light over a finger's. */
  readonly gain: number;
  /** Diameter of the artery that is narrowed or cuffed, cm; 0: none can be. */
  readonly diameter: number;
  /** Delay that goes with height: nothing for the ear. */
  readonly limb: boolean;
}

export const placeRows: Readonly<Record<Place, PlaceRow>> = {
  finger: { delay: 0.047, inertance: 1, resistance: 1, compliance: 1, gain: 1, diameter: 0.4, limb: true },
  thumb: { delay: 0.047, inertance: 1, resistance: 1, compliance: 1, gain: 1, diameter: 0.4, limb: true },
  toe: { delay: 0.12, inertance: 2, resistance: 2, compliance: 1, gain: 0.7, diameter: 0.6, limb: true },
  ear: { delay: 0.01, inertance: 0.3, resistance: 1, compliance: 0.3, gain: 0.8, diameter: 0, limb: false },
};
