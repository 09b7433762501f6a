/** What the beat finder weighs, in one place. Ratios unless a unit is given. */

export interface BeatSettings {
  /** Time over which a rise counts, s: the upstroke of a pulse is shorter, a breath is much longer. */
  readonly riseTime: number;
  /** Fall that ends a wave, as a share of the usual rise: smaller wiggles belong to the wave they sit on. */
  readonly wiggle: number;
  /** Rise, as a share of the usual one, at which a wave by itself is as likely a beat as not. */
  readonly even: number;
  /** Weight of an unexpected interval against an unexpected size. */
  readonly rhythm: number;
  /** Deviation of an interval from the expected one that costs nothing, natural logarithm. */
  readonly slack: number;
  /** Weight of a too long interval relative to a too short one. */
  readonly pause: number;
  /** How far back the usual rise looks, s. */
  readonly memory: number;
  /** Share of the highest repeat that an earlier repeat needs to be taken as the interval. */
  readonly firstRepeat: number;
}

export const beatSettings: BeatSettings = {
  riseTime: 0.17,
  wiggle: 0.06,
  even: 0.4,
  rhythm: 2,
  slack: 0.2,
  pause: 1,
  memory: 5,
  firstRepeat: 0.6,
};
