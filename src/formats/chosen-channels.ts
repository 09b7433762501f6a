/** Which channels a caller asked a recording for, checked in one place for all readers. */
import type { Block } from "../model/index.js";

export type RecordingErrorCode = "no-such-channel";

/** A caller's mistake. Faults of the data are `Problem` values and never thrown. */
export class RecordingError extends Error {
  override readonly name = "RecordingError";
  constructor(
    readonly code: RecordingErrorCode,
    detail: string,
  ) {
    super(`${code}: ${detail}`);
  }
}

/**
 * Positions as asked for; all of them when nothing was asked.
 *
 * @param count channels the recording has
 * @throws {RecordingError} `no-such-channel`, for anything that is no position in its list
 */
export function chosenChannels(count: number, which?: readonly number[]): readonly number[] {
  const stray = which?.find((at) => !(Number.isInteger(at) && at >= 0 && at < count));
  if (stray !== undefined) throw new RecordingError("no-such-channel", `${stray} of ${count} channels`);
  return which ?? Array.from({ length: count }, (_, at) => at);
}

/** `Recording.blocks` of a source without channels. */
export function noBlocks(which?: readonly number[]): AsyncIterable<Block> {
  chosenChannels(0, which);
  return (async function* () {})();
}
