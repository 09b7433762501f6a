/** What the heart shows the rest of the body at one instant. One object, changed in place each step. */
export interface HeartNow {
  /** Seconds since the model began. */
  time: number;
  /** Pressure at the root of the aorta, mmHg. */
  aortic: number;
  /** Pressure in the central veins, breathing included, mmHg. */
  centralVenous: number;
  /** Since the last ejection began, s; a large number before the first. Bodies shake in step with it. */
  sinceEjection: number;
  /** To be added to every site's vessel tone: breathing, the 0.1 Hz wave and slow wandering. */
  toneWave: number;
  /** Arterial saturation, a share of 1. */
  saturation: number;
}

/** One beat of the heart. */
export interface HeartBeat {
  /** Time of the R wave, s. */
  readonly r: number;
  /** Time at which ejection begins, s. */
  readonly ejection: number;
  readonly ejectionTime: number;
  /** Volume over the usual volume: 1 usual, 0 nothing ejected. */
  readonly strokeRatio: number;
  readonly kind: "usual" | "ectopic" | "after-ectopic" | "fibrillation";
}
