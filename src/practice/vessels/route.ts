/** The arteries between the aorta and the digit's root. */
export interface Route {
  /** Pressure above the segment, mmHg. */
  readonly upstream: number;
  /** Pressure at the root of the digit, mmHg at heart level. */
  readonly downstream: number;
  /** By the main way and by the ways beside it, ml/s. */
  readonly mainFlow: number;
  readonly collateralFlow: number;
  /** Into muscle, into the skin of the hand, ml/s. */
  readonly muscleFlow: number;
  readonly handFlow: number;
  /** One step, with the surroundings as they stand. */
  step(): void;
}

/** Constants of the two sections, in one person and place. */
export interface Sections {
  readonly inertance1: number;
  readonly resistance1: number;
  readonly compliance1: number;
  readonly inertance2: number;
  readonly resistance2: number;
  readonly compliance2: number;
  readonly chokePressure: number;
}
