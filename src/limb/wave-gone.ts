/** Whether the suspect side's wave went away somewhere else in the recording than where it was read. */
import type { Stretch } from "./choose-stretch.js";
import type { Heard } from "./listen.js";

/**
 * A loss under the probe, or a window without a pulse wave, outside the stretch compared. Movement and a
 * probe that came off say nothing about the pulse and do not count.
 */
export function waveGone({ windows, losses }: Heard, { from, to }: Stretch): boolean {
  const outside = (start: number, end: number) => end > to || start < from;
  const hidden = (at: number) =>
    windows.some(
      (window) =>
        window.from <= at && at < window.to && (window.capture === "unreadable" || window.capture === "off"),
    );
  return (
    windows.some((window) => window.capture === "none" && outside(window.from, window.to)) ||
    losses.some((loss) => outside(loss.from, loss.back ?? Number.POSITIVE_INFINITY) && !hidden(loss.seen))
  );
}
