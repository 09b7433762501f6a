/** What is so, beside what is seen. */
import type { Contact } from "../controls/index.js";

/** Main: through the watched artery; collateral: round it; none: no pulse wave comes. */
export type Way = "main" | "collateral" | "none";

/** One heart beat as it came, or did not come, to one site. Times in seconds from the start. */
export interface TruthBeat {
  readonly r: number;
  /**
   * Where the tangent of the steepest rise leaves the lowest point before it, and where the blood in the digit
   * stands highest; `null` when no pulse comes.
   */
  readonly foot: number | null;
  readonly peak: number | null;
  /** The pulse's own perfusion index, %, of a well-placed probe without noise; 0 when no pulse comes. */
  readonly perfusionIndex: number;
  /** True systolic: highest pressure above cuff and narrowing within this beat, mmHg. */
  readonly systolic: number;
  /** Highest pressure below them, mmHg. */
  readonly systolicBelow: number;
  /** External pressure on the artery at that moment, mmHg. */
  readonly external: number;
  readonly way: Way;
  /** Volume ejected over the usual. */
  readonly strokeRatio: number;
}

/** PI in % under which a rise is not called a pulse: a tenth of the smallest that any published display shows. */
export const leastPulse = 0.002;
/** Rise of pressure, mmHg, in the artery beyond cuff and narrowing under which no pulse has come. */
export const leastRise = 0.1;

/** One value for each sample sent out, side by side with the light. */
export interface TruthColumns {
  /** Digit flow over its flow at rest. */
  readonly flow: Float64Array;
  /** mmHg. */
  readonly digitPressure: Float64Array;
  /** mmHg, above and below cuff and narrowing. */
  readonly upstream: Float64Array;
  readonly downstream: Float64Array;
  /** mmHg: the larger of cuff and tissue pressure. */
  readonly external: Float64Array;
  /** Share of 1. */
  readonly saturation: Float64Array;
  /** 2 main, 1 collateral, 0 none: of the last beat that has come to its end. */
  readonly way: Float64Array;
  /** Perfusion index in % of that beat. */
  readonly perfusionIndex: Float64Array;
  /** See `contactCodes`. */
  readonly contact: Float64Array;
}

export const truthColumns = [
  "flow",
  "digitPressure",
  "upstream",
  "downstream",
  "external",
  "saturation",
  "way",
  "perfusionIndex",
  "contact",
] as const satisfies readonly (keyof TruthColumns)[];

export const wayCodes: Readonly<Record<Way, number>> = { none: 0, collateral: 1, main: 2 };
/** 2 well placed, 1 partly beside the digit, 0 off, −1 unplugged. */
export const contactCodes: Readonly<Record<Contact | "partly", number>> = {
  on: 2,
  partly: 1,
  off: 0,
  unplugged: -1,
};
