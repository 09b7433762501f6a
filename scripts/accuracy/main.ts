/**
 * `npm run accuracy`: scores the engine on the recordings of `data/`, on altered recordings and on synthetic
 * signals, and writes docs/accuracy.md with its pictures. `--quick` uses a tenth of the trials and writes to out/.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { pageOfBeats } from "./page-beats.js";
import { pageOfGrades } from "./page-grade.js";
import { pageOfDelay, pageOfReassurance, pageOfRWaves } from "./page-limb.js";
import { pageOfLosses } from "./page-losses.js";
import { pageOfPresence } from "./page-presence.js";
import { pageOfPractice } from "./practice/page.js";
import { measurePresence } from "./presence.js";
import { loadMarked } from "./recordings.js";
import { scoreSideDelay } from "./side-delay.js";

const quick = process.argv.includes("--quick");
const part = quick ? 10 : 1;
const folder = fileURLToPath(new URL(quick ? "../../out/" : "../../docs/", import.meta.url));

/** Runs one part and says how long it took; the whole takes minutes. */
async function timed<Result>(what: string, work: () => Result | Promise<Result>): Promise<Result> {
  const start = performance.now();
  process.stdout.write(`${what} … `);
  const result = await work();
  console.log(`${((performance.now() - start) / 1000).toFixed(0)} s`);
  return result;
}

const recordings = await timed("Reading the marked recordings", loadMarked);
const byName = new Map(recordings.map((one) => [one.name, one]));
const lines = [
  "# Accuracy",
  "",
  `Made by \`npm run accuracy${quick ? " -- --quick" : ""}\`; every figure comes from that run. Brackets are 95 % intervals.`,
  "",
  "Three kinds of truth, never confused: **real** recordings with hand marks (`data/`; one reader, no second opinion), **altered** real recordings",
  "(pulse taken out, put back smaller, resampled), and **synthetic** signals made from the average shapes of those recordings. None of them holds a limb",
  "with an injured artery, a cuff above the probe, or left beside right: what happens there is not measured here.",
  "",
  ...(await timed("Beats", () => pageOfBeats(recordings, quick ? 20 : 200))),
  ...(await timed("R waves", () => pageOfRWaves(recordings))),
  ...(await timed("Grades", () => pageOfGrades(recordings, quick ? 1 : 10))),
  ...(await timed("Losses and returns", () => pageOfLosses(recordings, quick ? 3 : 30))),
];
const presence = await timed("Presence (the longest part)", async () =>
  pageOfPresence(
    await measurePresence(async (name) => {
      const { unreadable, ...rest } = byName.get(name)!;
      return { ...rest, unreadable: unreadable.map(([from, to]) => ({ from, to })) };
    }, 3000 / part),
  ),
);
lines.push(
  ...presence.lines,
  ...(await timed("Delay between sides", () => pageOfDelay(scoreSideDelay(quick ? 40 : 400)))),
  ...(await timed("False reassurance", () => pageOfReassurance(10_000 / part))),
  ...(await timed("The practice limb", () => pageOfPractice(part))),
);
mkdirSync(`${folder}accuracy`, { recursive: true });
for (const [name, svg] of Object.entries(presence.pictures)) writeFileSync(`${folder}accuracy/${name}`, svg);
writeFileSync(`${folder}accuracy.md`, lines.join("\n"));
console.log(`Written: ${folder}accuracy.md`);
