import type { BeatShape } from "./reading.js";
export function usualShape(..._: unknown[]): BeatShape | null {
  return null;
}
