export type DspErrorCode =
  | "cutoff-out-of-range"
  | "unstable-section"
  | "non-finite-sample"
  | "size-out-of-range"
  | "argument-out-of-range";

/** A caller's mistake. Bad *data* never throws: readers turn it into gaps. */
export class DspError extends Error {
  override readonly name = "DspError";
  constructor(
    readonly code: DspErrorCode,
    detail: string,
  ) {
    super(`${code}: ${detail}`);
  }
}
