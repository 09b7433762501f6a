/** One thing that can be turned: its unit, the range it may have and where it rests. */
export interface ControlRow {
  readonly name: string;
  /** UCUM. */
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly rest: number;
  /** What it is, in the trade's words. */
  readonly what: string;
}
