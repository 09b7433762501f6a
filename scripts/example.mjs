/** The worked example of `npm start`: two sites of one real recording, the answer, and its picture. */
import { spawnSync } from "node:child_process";
import { mkdirSync } from "node:fs";
import { relative } from "node:path";
import { root } from "./steps.mjs";

const recording = "data/recordings/P12_baseline.csv";
const picture = "out/answer.png";
const words = [
  "compare",
  `${recording}#PPG Finger`,
  `${recording}#PPG Ear`,
  "--same-digit",
  "no",
  "--picture",
  picture,
];

console.log(
  `A real recording of one person at rest, finger and ear at once (${recording}; its licence is in data/LICENSES).`,
);
console.log("The finger stands for the sound side, the ear for the suspect side. The same by hand:\n");
console.log(`  bin/limbtide ${words.map((word) => (/[ #@]/.test(word) ? `"${word}"` : word)).join(" ")}\n`);

mkdirSync(`${root}out`, { recursive: true });
const { status } = spawnSync(`${root}bin/limbtide`, words, { cwd: root, stdio: "inherit" });
// 0 answered, 1 cannot tell: both are answers. Anything else has said on standard error what is wrong.
if (status !== 0 && status !== 1) process.exit(status ?? 1);

console.log(`\nThe picture: ${relative(process.cwd(), `${root}${picture}`)}`);
console.log(
  'Next: bin/limbtide read "data/recordings/a103l.hea#PLETH" finds a pulse that dies three times while the heart goes on.',
);
console.log("      bin/limbtide --help");
