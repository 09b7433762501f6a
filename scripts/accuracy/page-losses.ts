/** The part of the accuracy page on losses and returns of the pulse. */
import { captureGrades } from "../../src/model/capture.js";
import { cutLevels, cutWays } from "./loss-cuts.js";
import { type CutTrial, chosenOn, cutTrials, lossInTime, returnInTime, withinBeats } from "./losses.js";
import { movementLosses, uncutLosses } from "./losses-uncut.js";
import { decimals, shareOf, tableOf } from "./markdown.js";
import { share } from "./presence-share.js";
import type { MarkedRecording } from "./recordings.js";

function rowOf(name: string, trials: readonly CutTrial[]): (string | number)[] {
  const count = (test: (trial: CutTrial) => boolean) => trials.filter(test).length;
  const cell = (hits: number) => `${hits} of ${trials.length}, ${shareOf(share(hits, trials.length))}`;
  return [
    name,
    cell(count(lossInTime)),
    `${count((one) => one.lossBeats !== null && !lossInTime(one))}, ${count((one) => one.lossBeats === null)}`,
    cell(count(returnInTime)),
    `${count((one) => one.returnBeats !== null && !returnInTime(one))}, ${count((one) => one.returnBeats === null)}`,
    trials.reduce((sum, one) => sum + one.falseReturns, 0),
  ];
}

/** @param perRecord cuts of each recording in each of the six ways */
export function pageOfLosses(recordings: readonly MarkedRecording[], perRecord: number): string[] {
  const trials = cutTrials(recordings, perRecord);
  const names = [...new Set(trials.map(({ record }) => record))];
  const left = recordings.map(({ name }) => name).filter((name) => !names.includes(name));
  const isChosenOn = ({ person }: CutTrial) => chosenOn.includes(person);
  const late = trials.filter((one) => !lossInTime(one));
  const hours = trials.reduce((sum, { place }) => sum + place.back - place.cut, 0) / 3600;
  const moved = movementLosses(recordings, 4 * perRecord);
  const head = ["", "loss in time", "late, not seen", "return in time", "late, not seen", "false returns"];
  return [
    "## Losses and returns of the pulse (altered recordings)",
    "",
    `Real recordings whose pulse is cut at a random instant and restored 4 to 20 s later. Bar: each within ${withinBeats} beats. One beat is the median of the`,
    "eight marked intervals before the cut, or after the return. The clock of a loss starts at the last marked peak before the cut, even where the",
    "cut falls into the next upstroke; that of a return at the peak of the first marked beat that lies wholly, foot and peak, after the restoration.",
    "A loss not seen before the restoration counts against both. The engine first hears up to 40 s of the recording as it is; at least 12 s before the cut and 5 s",
    `after the return are labelled \`good\` and free of unreadable spans. No room for that: ${left.map((name) => `\`${name}\``).join(", ") || "none"}.`,
    "",
    "- `held`: the level at the cut, with the recording's own quick residual noise (above some 2 Hz)",
    "- `subtracted`: the beat-locked average taken out; what that leaves of each beat still beats",
    "- `phaseless`: the same at equal spectrum, phases drawn anew, so that nothing in it keeps time",
    "- `kept` or `shifted`: the light level stays, or steps by one to three pulse heights at the cut and back at the return",
    "",
    tableOf(head, [
      ...names.map((name) =>
        rowOf(
          `\`${name}\``,
          trials.filter((one) => one.record === name),
        ),
      ),
      ...cutWays.flatMap((way) =>
        cutLevels.map((level) =>
          rowOf(
            `${way}, ${level}`,
            trials.filter((one) => one.way === way && one.level === level),
          ),
        ),
      ),
      rowOf("persons the settings were chosen on", trials.filter(isChosenOn)),
      rowOf(
        "all other persons",
        trials.filter((one) => !isChosenOn(one)),
      ),
      rowOf("**all**", trials),
    ]),
    "",
    `Of the ${late.length} losses not in time, the cut fell into an upstroke in ${late.filter((one) => one.inUpstroke).length} (of all cuts: ${trials.filter((one) => one.inUpstroke).length} of ${trials.length}), and ${late.filter((one) => one.way !== "held").length}`,
    "had what subtraction leaves of the beats beneath them, which may rise like a small pulse. A false return is one seen while the pulse was cut:",
    `${decimals(trials.reduce((sum, one) => sum + one.falseReturns, 0) / hours, 1)} per hour of cut signal.`,
    `Values of the settings were picked on ${chosenOn.map((name) => `\`${name}\``).join(", ")}, every second person in alphabetical order. The rules themselves`,
    "came from looking at what was missed on all of them, at other instants than these; two (a chain of returning beats may begin anew with its last link;",
    "doubt counts for less where the usual upstrokes differ) were added for `a103l`. So the other persons are not wholly unseen.",
    "",
    "### Losses seen without a cut (real recordings)",
    "",
    "By the label of the window they were seen in. Under `other` (labelled `none` or `unreadable`, or not labelled) many are losses in truth.",
    "",
    tableOf(
      ["label", "hours", "losses", "per hour", "over a marked beat"],
      uncutLosses(recordings).map(({ label, hours: time, losses, low, high, overMarked }) => [
        label,
        decimals(time, 2),
        losses,
        `${decimals(losses / time, 1)} (${decimals(low, 1)} to ${decimals(high, 1)})`,
        overMarked,
      ]),
    ),
    "",
    "### Losses seen under movement (altered recordings)",
    "",
    "Damped swings of two to eight times the pulse laid over solid stretches for 4 to 20 s, the pulse going on beneath. The wave is out of sight, so a loss may be",
    "said; but its window must not be graded `none`, which would speak of a working probe without a pulse (S5).",
    "",
    `A loss was seen in ${moved.lost} of ${moved.trials} stretches; windows of these losses by grade:`,
    "",
    tableOf([...captureGrades], [captureGrades.map((grade) => moved.grades[grade])]),
    "",
  ];
}
