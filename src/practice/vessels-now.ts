/** What the vessels show at one site at one instant. One object, changed in place each step. */
export interface VesselsNow {
  /** Arterial blood in the light's way, cm of path. */
  arterialPath: number;
  /** Venous blood in the light's way, cm of path. */
  venousPath: number;
  /** Saturation of the arterial blood in the digit, a share of 1. */
  saturation: number;
  /** Artery above cuff and narrowing, at the cuff's level, mmHg: its peak in a beat is the true systolic. */
  upstream: number;
  /** Artery below them, mmHg. */
  downstream: number;
  /** Small arteries of the digit, mmHg at the digit's height. */
  digit: number;
  /** External pressure acting on the segment: the larger of cuff and tissue, mmHg. */
  external: number;
  /** Flow through the main vessel's segment and round it, ml/s. */
  mainFlow: number;
  collateralFlow: number;
  /** Flow through the digit over its flow at rest with all controls at rest. */
  flowFraction: number;
  /** Flow through the limb's muscle over its flow at rest with all controls at rest. */
  muscleFraction: number;
  /** Limb veins, mmHg. */
  venous: number;
}
