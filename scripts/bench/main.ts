/**
 * `npm run bench`: times a full reading of one channel-day beside SciPy's band-pass and peak search, in one call,
 * and writes docs/speed.md. Nothing here is a test: a slow machine gives other figures, not a failure.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import { hertz } from "../../src/model/units.js";
import { createPulseListener } from "../../src/pulse/listener.js";
import { noiseDay, pulseDay } from "./day.js";
import { readAll } from "./read-all.js";

const RATE = 125;
const DAY = 86_400 * RATE;
const REPEATS = 5;
const here = fileURLToPath(new URL(".", import.meta.url));

const median = (xs: readonly number[]) => [...xs].sort((a, b) => a - b)[xs.length >> 1] as number;
const fixed = (x: number, digits = 2) => x.toFixed(digits);

/** Heap after a forced collection while `hours` of signal have gone through, MiB; needs --expose-gc to be exact. */
function heapAfter(hours: number, values: Float64Array): number {
  let held = 0;
  const listener = createPulseListener(
    { rate: hertz(RATE), polarity: "systole-up", level: false },
    { beat: () => {}, window: () => {}, loss: () => {} },
  );
  const hour = values.subarray(0, 3600 * RATE);
  for (let h = 0; h < hours; h++) listener.push(hour);
  globalThis.gc?.();
  held = process.memoryUsage().heapUsed;
  listener.end();
  return held / 2 ** 20;
}

/** Wall clock and processor time of the first and the second reading of a process, s. */
interface Timed {
  readonly first_s: number;
  readonly first_cpu_s: number;
  readonly second_s: number;
  readonly second_cpu_s: number;
}

function run<Result extends Timed>(command: string, words: readonly string[]): Result | null {
  const { status, stdout } = spawnSync(command, words, { encoding: "utf8" });
  return status === 0 ? (JSON.parse(stdout) as Result) : null;
}

type Theirs = Timed & { readonly peaks: number; readonly numpy: string; readonly scipy: string };
type Ours = Timed & {
  readonly beats: number;
  readonly windows: number;
  /** Bytes, results included, once the code is compiled. */
  readonly allocated_per_sample: number;
};

function scipy(file: string): Theirs | null {
  const words = [join(here, "scipy_reading.py"), file, String(RATE)];
  return run<Theirs>("/usr/bin/python3", words) ?? run<Theirs>("python3", words);
}

/** The listener as it ships: bundled, in a process of its own. */
function ourReading(bundle: string, file: string): Ours {
  const timed = run<Ours>(process.execPath, [bundle, file, String(RATE)]);
  if (timed === null) throw new Error("the reading of the synthetic day failed");
  return timed;
}

const folder = mkdtempSync(join(tmpdir(), "limbtide-bench-"));
const file = join(folder, "day.f64");
try {
  console.log("Making one channel-day (10.8 million samples) …");
  const day = pulseDay(DAY, RATE);
  writeFileSync(file, new Uint8Array(day.buffer));
  const bundle = join(folder, "reading.mjs");
  buildSync({
    entryPoints: [join(here, "reading.ts")],
    outfile: bundle,
    bundle: true,
    platform: "node",
    format: "esm",
  });
  const ours: Ours[] = [];
  const theirs: Theirs[] = [];
  for (let i = 0; i < REPEATS; i++) {
    console.log(`  run ${i + 1} of ${REPEATS}`);
    ours.push(ourReading(bundle, file));
    const other = scipy(file);
    if (other !== null) theirs.push(other);
  }
  const noise = readAll(noiseDay(DAY), RATE);
  const rates = [25, 50, 100, 250, 500, 1000].map((rate) => ({
    rate,
    run: readAll(pulseDay(3600 * rate, rate), rate),
  }));
  const allocated = median(ours.map((timed) => timed.allocated_per_sample));
  const heap = [1, 24].map((hours) => heapAfter(hours, day));

  const row = (what: string, runs: readonly Timed[], which: "first" | "second") => {
    const wall = runs.map((timed) => timed[`${which}_s`]);
    const cpu = runs.map((timed) => timed[`${which}_cpu_s`]);
    return `| ${what} | ${fixed(median(wall), 3)} | ${fixed(median(cpu), 3)} | ${wall.map((t) => fixed(t, 3)).join(", ")} |`;
  };
  const middle = (runs: readonly Timed[], which: keyof Timed) => median(runs.map((timed) => timed[which]));
  const lines = [
    "# Speed",
    "",
    "Made by `npm run bench`; every figure comes from that run. Other machines give other figures.",
    "",
    `Machine: ${cpus()[0]?.model.trim() ?? "unknown"}, Node ${process.versions.node}; each reading runs on one thread.`,
    "",
    "## One channel-day in full",
    "",
    `86 400 s at ${RATE} samples/s (synthetic pulses at 75/min with 4 % interval scatter, made for timing only). Ours is everything`,
    "`limbtide read` does with the samples: conditioning, beats with foot, peak and notch, quality, presence where needed, grades, losses.",
    `SciPy is \`sosfiltfilt\` (Butterworth band-pass, order 2, 0.5 to 8 Hz) and \`find_peaks\` with distance and prominence. Both have the samples in`,
    `memory and have read them once before the clock starts; a new process each time, alternating, ${REPEATS} runs each. Processor time counts all`,
    "threads, for ours those that compile and collect beside the one that reads among them.",
    "",
    "| | median s | processor, median s | all runs, s |",
    "|---|---|---|---|",
    row("full reading, first of a process", ours, "first"),
    row("full reading, second of the same process", ours, "second"),
  ];
  if (theirs.length > 0) {
    const { numpy, scipy: version, peaks } = theirs[0]!;
    const name = `SciPy ${version}, NumPy ${numpy}: filter and peaks only`;
    const ratio = (their: keyof Timed, our: keyof Timed) =>
      `**${fixed(middle(theirs, their) / middle(ours, our))}**`;
    lines.push(
      row(`${name}, first of a process`, theirs, "first"),
      row(`${name}, second of the same process`, theirs, "second"),
      "",
      `Ratio of medians, SciPy to ours: ${ratio("first_s", "first_s")} for the first reading of a process, ${ratio("second_s", "second_s")} for the second, when SciPy's`,
      `memory is there already; our first against SciPy's second ${ratio("second_s", "first_s")}. In processor time: ${ratio("first_cpu_s", "first_cpu_s")}, ${ratio("second_cpu_s", "second_cpu_s")}`,
      `and ${ratio("second_cpu_s", "first_cpu_s")}. Beats found: ${ours[0]!.beats}; peaks found by SciPy: ${peaks}; windows graded: ${ours[0]!.windows}.`,
    );
  } else {
    lines.push("", "SciPy was not found (`python3-scipy`), so the comparison was left out.");
  }
  lines.push(
    "",
    "## Harder input and other rates",
    "",
    "| input | samples | s | million samples/s |",
    "|---|---|---|---|",
    `| a day of noise at ${RATE}/s: no window is solid, so each pays for the presence test | ${DAY} | ${fixed(noise.took)} | ${fixed(DAY / noise.took / 1e6, 1)} |`,
    ...rates.map(
      ({ rate, run }) =>
        `| one hour at ${rate}/s | ${3600 * rate} | ${fixed(run.took, 3)} | ${fixed((3600 * rate) / run.took / 1e6, 1)} |`,
    ),
    "",
    "## Memory",
    "",
    `Heap while listening, the test signal itself included: ${fixed(heap[0]!, 1)} MiB after 1 h of signal, ${fixed(heap[1]!, 1)} MiB after 24 h` +
      `${globalThis.gc ? "" : " (without forced collection)"}. Results are handed on as they come; nothing is kept.`,
    `Allocated while reading the day, beats and windows handed on included: ${fixed(allocated, 1)} bytes per sample.`,
    "",
  );
  writeFileSync(new URL("../../docs/speed.md", import.meta.url), lines.join("\n"));
  console.log(lines.slice(11).join("\n"));
  console.log("\nWritten: docs/speed.md");
} finally {
  rmSync(folder, { recursive: true, force: true });
}
