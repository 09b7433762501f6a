/** Which part of a stretch the loss watch called lost, in beats that were due: what the capture grade needs to know of losses. */
import type { Loss } from "../model/capture.js";

/** Losses kept; windows end within seconds of now. */
const most = 16;

export interface LossSpans {
  /** Takes a loss when it is seen, and again when the pulse is back. */
  take(loss: Loss): void;
  /** Tells the interval of the last solid window, s. */
  usual(interval: number): void;
  /** Beats due between `from` and `to` (s) while the pulse was lost; 0 without a loss or before any solid window. */
  beatsDue(from: number, to: number): number;
}

export function createLossSpans(): LossSpans {
  const spans: Loss[] = [];
  let interval = Number.NaN;
  return {
    take(loss) {
      if (loss.back !== null && spans.at(-1)?.back === null) spans.pop();
      spans.push(loss);
      if (spans.length > most) spans.shift();
    },
    usual(seconds) {
      interval = seconds;
    },
    beatsDue(from, to) {
      let gone = 0;
      for (const { from: start, back } of spans)
        gone += Math.max(0, Math.min(to, back ?? to) - Math.max(from, start));
      return gone > 0 && interval > 0 ? gone / interval : 0;
    },
  };
}
