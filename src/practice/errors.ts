export type PracticeErrorCode =
  | "unknown-control"
  | "out-of-range"
  | "unknown-choice"
  | "unknown-site"
  | "unknown-scenario"
  | "impossible-pressures"
  | "bad-rate"
  | "bad-seed"
  | "out-of-order";

/** A caller's mistake: a setting that the model does not take. The text says what it does take. */
export class PracticeError extends Error {
  override readonly name = "PracticeError";
  constructor(
    readonly code: PracticeErrorCode,
    detail: string,
  ) {
    super(`${code}: ${detail}`);
  }
}
