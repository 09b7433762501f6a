/** The part of the accuracy page about losses, side delay, R waves and false reassurance. */
import { seconds } from "../../src/model/units.js";
import { pairBeats } from "../../src/pulse/agreement.js";
import { createEcgBeatFinder } from "../../src/pulse/ecg-beats.js";
import { decimals, percent, tableOf } from "./markdown.js";
import { scoreReassurance } from "./reassurance.js";
import type { MarkedRecording } from "./recordings.js";

export function pageOfRWaves(recordings: readonly MarkedRecording[]): string[] {
  const rows = recordings.flatMap(({ name, ecg, rWaves, ecgUnreadable }) => {
    if (ecg === null) return [];
    const found: number[] = [];
    const finder = createEcgBeatFinder(ecg.rate, (time) => found.push(time));
    finder.push(ecg.values);
    finder.end();
    const clear = (time: number) =>
      !ecgUnreadable.some(([from, to]) => time >= from - 0.15 && time <= to + 0.15);
    const { matched, missed, extra } = pairBeats(rWaves.filter(clear), found.filter(clear), seconds(0.15));
    return [[`\`${name}\``, matched.length, missed.length, extra.length]];
  });
  return [
    "## R waves against hand marks (real recordings)",
    "",
    "The reference of the presence test where an ECG was recorded; ±150 ms, unreadable spans of the ECG left out.",
    "",
    tableOf(["record", "hits", "missed", "extra"], rows),
    "",
  ];
}

export function pageOfReassurance(trials: number): string[] {
  const { verdicts, limit } = scoreReassurance(trials, 1);
  return [
    "## False reassurance (synthetic)",
    "",
    "A suspect side without any pulse: noise of every kind, a hundredth of to twice the sound side's size, raw light or display trace, everything",
    "stated so that `no-difference` is easiest to reach. Bar: none ends as `no-difference`.",
    "",
    tableOf(
      ["verdict", "trials"],
      Object.entries(verdicts).map(([verdict, count]) => [`\`${verdict}\``, count ?? 0]),
    ),
    "",
    `\`no-difference\`: **${verdicts["no-difference"] ?? 0} of ${trials}**; the true share is below ${percent(limit, 2)} (95 %).`,
    "",
  ];
}

export function pageOfDelay(
  rows: readonly {
    readonly decibels: number;
    readonly bound: number;
    readonly byShape: number;
    readonly byFoot: number;
  }[],
): string[] {
  return [
    "## Delay between two sides (synthetic, equal shapes)",
    "",
    "SD over repeats of the delay from 20 beats at 75/min, 100 samples/s, against the Cramér–Rao bound for two noisy sides. Bar: by shape at most 1.3 times the bound.",
    "",
    tableOf(
      ["SNR, dB", "bound, ms", "by shape, ms", "ratio", "by foot, ms"],
      rows.map(({ decibels, bound, byShape, byFoot }) => [
        decibels,
        decimals(bound, 2),
        decimals(byShape, 2),
        decimals(byShape / bound, 2),
        decimals(byFoot, 2),
      ]),
    ),
    "",
  ];
}
