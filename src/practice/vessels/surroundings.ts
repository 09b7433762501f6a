/** All that acts on the arteries of a limb from outside in one step. One object, changed in place. */
export class Surroundings {
  /** Pressure that drives the limb, mmHg. */
  root = 0;
  /** Round the main artery's segment: the larger of cuff and tissue pressure, mmHg. */
  external = 0;
  /** Round the way beside it, mmHg. */
  cuff = 0;
  /** Narrowing of the main artery, mmHg s/ml and mmHg s2/ml2. */
  linear = 0;
  quadratic = 0;
  /** Ways beside, ml/(mmHg s). */
  collateral = 0;
  arch = 0;
  /** Wrist arteries under a finger (two-artery hand), mmHg s/ml. */
  radial = 0;
  ulnar = 0;
  /** Beds: conductance, ml/(mmHg s), and the pressure at which inflow stops, mmHg. */
  muscle = 0;
  muscleFloor = 0;
  hand = 0;
  handFloor = 0;
}
