/**
 * `npm run bench`: times a full reading of one channel-day beside SciPy's band-pass and peak search, in one call,
 * and writes docs/speed.md. Nothing here is a test: a slow machine gives other figures, not a failure.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { hertz } from "../../src/model/units.js";
import { createPulseListener } from "../../src/pulse/listener.js";
import { noiseDay, pulseDay } from "./day.js";

const RATE = 125;
const DAY = 86_400 * RATE;
const REPEATS = 5;
const BLOCK = 4096;
const here = fileURLToPath(new URL(".", import.meta.url));

interface Run {
  readonly took: number;
  readonly beats: number;
  readonly windows: number;
}

/** Everything `limbtide read` does with the samples of one channel; results are counted and dropped. */
function readAll(values: Float64Array, rate = RATE): Run {
  let beats = 0;
  let windows = 0;
  const listener = createPulseListener(
    { rate: hertz(rate), polarity: "systole-up", level: false },
    {
      beat: () => {
        beats += 1;
      },
      window: () => {
        windows += 1;
      },
      loss: () => {},
    },
  );
  const start = performance.now();
  for (let i = 0; i < values.length; i += BLOCK) listener.push(values.subarray(i, i + BLOCK));
  listener.end();
  return { took: (performance.now() - start) / 1000, beats, windows };
}

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

function scipy(
  file: string,
): { filter_s: number; search_s: number; peaks: number; numpy: string; scipy: string } | null {
  for (const python of ["/usr/bin/python3", "python3"]) {
    const { status, stdout } = spawnSync(python, [join(here, "scipy_reading.py"), file, String(RATE)], {
      encoding: "utf8",
    });
    if (status === 0) return JSON.parse(stdout);
  }
  return null;
}

const folder = mkdtempSync(join(tmpdir(), "limbtide-bench-"));
const file = join(folder, "day.f64");
try {
  console.log("Making one channel-day (10.8 million samples) …");
  const day = pulseDay(DAY, RATE);
  writeFileSync(file, new Uint8Array(day.buffer));
  const ours: Run[] = [];
  const theirs: NonNullable<ReturnType<typeof scipy>>[] = [];
  for (let i = 0; i < REPEATS; i++) {
    console.log(`  run ${i + 1} of ${REPEATS}`);
    ours.push(readAll(day));
    const other = scipy(file);
    if (other !== null) theirs.push(other);
  }
  const noise = readAll(noiseDay(DAY));
  const rates = [25, 50, 100, 250, 500, 1000].map((rate) => ({
    rate,
    run: readAll(pulseDay(3600 * rate, rate), rate),
  }));
  const heap = [1, 24].map((hours) => heapAfter(hours, day));

  const own = median(ours.map((run) => run.took));
  const lines = [
    "# Speed",
    "",
    "Made by `npm run bench`; every figure comes from that run. Other machines give other figures.",
    "",
    `Machine: ${cpus()[0]?.model.trim() ?? "unknown"}, Node ${process.versions.node}, one core.`,
    "",
    "## One channel-day in full",
    "",
    `86 400 s at ${RATE} samples/s (synthetic pulses at 75/min with 4 % interval scatter, made for timing only). Ours is everything`,
    "`limbtide read` does with the samples: conditioning, beats with foot, peak and notch, quality, presence where needed, grades, losses.",
    `SciPy is \`sosfiltfilt\` (Butterworth band-pass, order 2, 0.5 to 8 Hz) and \`find_peaks\` with distance and prominence. Both read from memory,`,
    `alternating, ${REPEATS} runs each.`,
    "",
    "| | median s | all runs |",
    "|---|---|---|",
    `| full reading, this project | ${fixed(own, 3)} | ${ours.map((run) => fixed(run.took, 3)).join(", ")} |`,
  ];
  if (theirs.length > 0) {
    const totals = theirs.map((run) => run.filter_s + run.search_s);
    const other = median(totals);
    const { numpy, scipy: version } = theirs[0]!;
    lines.push(
      `| SciPy ${version}, NumPy ${numpy}: filter and peaks only | ${fixed(other, 3)} | ${totals.map((t) => fixed(t, 3)).join(", ")} |`,
      "",
      `Ratio of medians, SciPy to ours: **${fixed(other / own)}**. Beats found: ${ours[0]!.beats}; peaks found by SciPy: ${theirs[0]!.peaks}; windows graded: ${ours[0]!.windows}.`,
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
    "",
  );
  writeFileSync(new URL("../../docs/speed.md", import.meta.url), lines.join("\n"));
  console.log(lines.slice(11).join("\n"));
  console.log("\nWritten: docs/speed.md");
} finally {
  rmSync(folder, { recursive: true, force: true });
}
