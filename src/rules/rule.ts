/** What a clinical threshold is. Rows hold the knowledge; code only walks rows. */

/** What a threshold is held against. The unit of each is fixed by its rows. */
export type Measure =
  | "template correlation, mean"
  | "template correlation, worst beat"
  | "longest gap between beats"
  | "longest silence over median interval"
  | "longest over shortest interval"
  | "rest over pulse"
  | "flat run"
  | "missing samples"
  | "share standing still"
  | "share at the rail"
  | "clipped top"
  | "hidden time"
  | "length of the stretch"
  | "pulses compared"
  | "median interval"
  | "largest over smallest pulse"
  | "move of the base between pulses"
  | "swings in a second"
  | "swings in a second, overtones included"
  | "beats due while it was lost"
  | "share one wave and its overtones explain"
  | "share of the movement below 4 Hz"
  | "share of the movement in 1.5 Hz, above 2.5 Hz"
  | "foot to top"
  | "share no sine explains"
  | "share no sine explains, even sizes"
  | "share no sine explains, usual rise"
  | "share no sine explains, short rise"
  | "share no sine explains, any rise"
  | "change of size from pulse to pulse"
  | "range within half a second over usual pulse, upper quarter"
  | "p of the rhythm"
  | "differences of size, shape and length, geometric mean"
  | "evenness over usual pulse"
  | "beats in the reading"
  | "length of the reading"
  | "pulse rate"
  | "pulse rate difference"
  | "pulse rate difference, relative"
  | "pulse deficit"
  | "beats without a partner"
  | "presence p"
  | "hidden wave over sound side"
  | "perfusion index"
  | "perfusion index, both sides"
  | "perfusion index, suspect over sound"
  | "perfusion index, toe over finger"
  | "perfusion index, fall from control digit"
  | "perfusion index, fall on radial compression"
  | "perfusion index, 10 min after block over before"
  | "delay, fingers"
  | "delay, toes"
  | "delay by foot minus delay by shape"
  | "rise time, great toe"
  | "SpO2, injured limb"
  | "SpO2, sound minus suspect"
  | "age of a shown number";

export type Comparator = "<" | "<=" | ">" | ">=";

/**
 * - `published`: the number was read in a published paper, guideline or standard
 * - `common practice`: used in the field, no one source for it
 * - `working default`: ours, or a published number known only from memory; shown as such (S9)
 */
export type Support = "published" | "common practice" | "working default";

/** One threshold: the finding `text` holds when `measure comparator value` is true. */
export interface Rule {
  /** Stable, dotted, kebab-case. */
  readonly id: string;
  /** What it means when the threshold is passed; one line for a person. */
  readonly text: string;
  readonly measure: Measure;
  readonly comparator: Comparator;
  readonly value: number;
  /** UCUM; `1` for a ratio, `{beats}` for a count. */
  readonly unit: string;
  /** Where the number comes from; for our own, how it was derived. */
  readonly source: string;
  readonly support: Support;
  /** When the row was last held against its source, ISO 8601 date. */
  readonly date: string;
  /** What to know before trusting it, such as how it is known. */
  readonly note?: string;
}
