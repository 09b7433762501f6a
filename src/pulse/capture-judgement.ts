/** What the capture grade says of a stretch, and how its reasons are put. */
import type { CaptureGrade, Reason, ReasonCode } from "../model/capture.js";

export interface CaptureJudgement {
  readonly capture: CaptureGrade;
  readonly reasons: readonly Reason[];
}

export function reason(code: ReasonCode, value: number | null, unit: string, limit: number | null): Reason {
  return { code, value: value !== null && Number.isFinite(value) ? value : null, unit, limit };
}

/** One line per code: the first, which is the gravest. */
export function judged(capture: CaptureGrade, reasons: readonly Reason[]): CaptureJudgement {
  return { capture, reasons: reasons.filter((r, i) => reasons.findIndex((q) => q.code === r.code) === i) };
}
