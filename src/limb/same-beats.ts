/** Whether both sides are one and the same recording, named twice or copied under another name. */
import type { Reading } from "./reading.js";

/** Fewer beats than these may agree by chance, ours. */
const fewest = 5;
/** Seconds. Two probes on one heart agree to milliseconds at best; a copy does to the last digit. */
const nearest = 1e-6;

/** Times from the start of the reading and sizes agree in every beat. */
export function sameBeats(sound: Reading, suspect: Reading): boolean {
  if (sound.beats.length < fewest || sound.beats.length !== suspect.beats.length) return false;
  return sound.beats.every((one, i) => {
    const other = suspect.beats[i]!;
    const apart = one.peak - sound.from - (other.peak - suspect.from);
    return Math.abs(apart) < nearest && one.amplitude === other.amplitude;
  });
}
