/** One constant of the model: what it is worth, where it comes from and how far that can be trusted. */
export interface ConstantRow {
  readonly value: number;
  /** UCUM. */
  readonly unit: string;
  /** The range it may plausibly have. */
  readonly low: number;
  readonly high: number;
  readonly source: string;
  /**
   * - `published`: read in the source named
   * - `calculated`: follows from others by arithmetic or physics
   * - `memory`: known in the trade, no source read
   * - `fitted`: set so that the model meets a figure
   */
  readonly support: "published" | "memory" | "fitted" | "calculated";
  /** What it is, in the trade's words. */
  readonly what: string;
}
