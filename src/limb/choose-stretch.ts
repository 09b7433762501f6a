/**
 * Which stretch of a longer recording a reading is taken from. The latest one counts, because it is
 * how the limb is; the best one would hide a pulse that went away.
 */
import type { Window } from "../model/index.js";
import { ruleOf } from "../rules/index.js";

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** A reading is 10 to 20 s: two to four windows of 5 s. */
const fewest = 2;
const most = 4;
const shortest = ruleOf("reading.length").value;

/**
 * The last run of windows that all fit, up to four of them; of runs shorter than two windows the last long one
 * wins if there is any. `null` if no window fits.
 */
export function lastRun(windows: readonly Window[], fits: (window: Window) => boolean): Stretch | null {
  let short: Stretch | null = null;
  for (let end = windows.length; end > 0; ) {
    if (!fits(windows[end - 1]!)) {
      end--;
      continue;
    }
    let start = end - 1;
    while (start > 0 && end - start < most && fits(windows[start - 1]!)) start--;
    const run = { from: windows[start]!.from, to: windows[end - 1]!.to };
    if (end - start >= fewest) return run;
    short ??= run;
    end = start;
  }
  return short;
}

function whole(windows: readonly Window[]): Stretch {
  return { from: windows[0]?.from ?? 0, to: windows.at(-1)?.to ?? 0 };
}

/** A recording may end in a window too short to be graded; it takes no part while there are others. */
function longEnough(windows: readonly Window[]): readonly Window[] {
  const long = windows.filter((window) => window.to - window.from >= shortest);
  return long.length > 0 ? long : windows;
}

function gradeAt(windows: readonly Window[], window: Window): Window | undefined {
  const middle = (window.from + window.to) / 2;
  return windows.find((other) => other.from <= middle && middle < other.to);
}

/** Windows of the sound side during which the suspect side was read as well; none for two times of one recording. */
export function windowsInCommon(sound: readonly Window[], suspect: readonly Window[]): readonly Window[] {
  return sound.filter((window) => gradeAt(suspect, window) !== undefined);
}

/**
 * Stretches of the sound and the suspect side.
 *
 * Read together, both get the same stretch: the last in which the sound side is solid and the suspect side is
 * not hidden (off or unreadable), else the last in which the sound side is solid. Else each side
 * gets its own last stretch: solid for the sound side, not hidden for the suspect.
 *
 * @param together on one clock, and with windows in common
 */
export function chooseStretches(
  allSound: readonly Window[],
  allSuspect: readonly Window[],
  together: boolean,
): { readonly sound: Stretch; readonly suspect: Stretch } {
  const sound = longEnough(allSound);
  const suspect = longEnough(allSuspect);
  const solid = (window: Window) => window.capture === "solid";
  const open = (window: Window | undefined) =>
    window !== undefined && window.capture !== "off" && window.capture !== "unreadable";
  if (together) {
    const common = windowsInCommon(sound, suspect);
    const both =
      lastRun(common, (window) => solid(window) && open(gradeAt(suspect, window))) ??
      lastRun(common, solid) ??
      whole(common);
    return { sound: both, suspect: both };
  }
  return {
    sound: lastRun(sound, solid) ?? whole(sound),
    suspect: lastRun(suspect, open) ?? whole(suspect),
  };
}
