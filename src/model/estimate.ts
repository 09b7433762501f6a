/** A number that carries its doubt. */
export interface Estimate<Unit extends number = number> {
  readonly value: Unit;
  /** Lower and upper end of the 95 % interval. */
  readonly low: Unit;
  readonly high: Unit;
  /** How many beats or trials it rests on. */
  readonly count: number;
}
