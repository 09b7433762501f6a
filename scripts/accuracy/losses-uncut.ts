/** Losses seen where the pulse went on: on the recordings as they are, and with movement laid over them. */
import type { CaptureGrade } from "../../src/model/capture.js";
import { createRandom, makeNoise } from "../../src/pulse/testing/noise.js";
import { listenTo } from "./grade.js";
import { choosePlace, makeCuttable } from "./loss-cuts.js";
import type { MarkedRecording } from "./recordings.js";

/** Heard before movement begins and after it ends, s. */
const lead = 40;
const tail = 12;

export interface UncutRow {
  readonly label: "good" | "doubtful" | "other";
  readonly hours: number;
  readonly losses: number;
  /** Exact 95 % interval of the rate per hour. */
  readonly low: number;
  readonly high: number;
  /** Of the losses, how many have a marked beat between the last beat heard and the instant the loss was seen. */
  readonly overMarked: number;
}

/** Counts losses by the label of the window in which they were seen; time without a label is `other`. */
export function uncutLosses(recordings: readonly MarkedRecording[]): UncutRow[] {
  const counts = { good: [0, 0, 0], doubtful: [0, 0, 0], other: [0, 0, 0] };
  for (const { values, rate, windows, peaks } of recordings) {
    const labelAt = (time: number) => {
      const label = windows.find(({ from, to }) => time >= from && time < to)?.label;
      return label === "good" || label === "doubtful" ? label : "other";
    };
    for (const { from, to } of windows) counts[labelAt(from)][0]! += to - from;
    const labelled = windows.reduce((sum, { from, to }) => sum + to - from, 0);
    counts.other[0]! += Math.max(0, values.length / rate - labelled);
    for (const { from, seen } of listenTo(values, rate).losses) {
      const count = counts[labelAt(seen)];
      count[1]!++;
      // Within 0.2 s of the last beat heard it is that beat; the last 0.3 s are not yet decided.
      if (peaks.some((peak) => peak > from + 0.2 && peak < seen - 0.3)) count[2]!++;
    }
  }
  return (["good", "doubtful", "other"] as const).map((label) => {
    const [seconds, losses, overMarked] = counts[label];
    const hours = seconds! / 3600;
    const [low, high] = poissonLimits(losses!);
    return { label, hours, losses: losses!, low: low / hours, high: high / hours, overMarked: overMarked! };
  });
}

/**
 * Exact 95 % limits of a Poisson mean from one count.
 *
 * @see F. Garwood, Biometrika 1936;28:437; for no event the upper one is ln 40 = 3.69
 */
export function poissonLimits(count: number): readonly [number, number] {
  const atMost = (mean: number, k: number) => {
    let term = Math.exp(-mean);
    let sum = term;
    for (let i = 1; i <= k; i++) {
      term *= mean / i;
      sum += term;
    }
    return sum;
  };
  /** The mean at which a count of `k` or fewer has this chance. */
  const meanAt = (k: number, chance: number) => {
    let low = 0;
    let high = 10 + 3 * k;
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (atMost(middle, k) > chance) low = middle;
      else high = middle;
    }
    return low;
  };
  return [count === 0 ? 0 : meanAt(count - 1, 0.975), meanAt(count, 0.025)];
}

export interface MovementReport {
  readonly trials: number;
  /** Trials in which a loss was seen while the movement lasted. */
  readonly lost: number;
  /** Such losses by the grade of the window they were seen in: `unreadable` and `off` say that nothing is known (S5). */
  readonly grades: Readonly<Record<CaptureGrade, number>>;
}

/** Lays random damped swings, two to eight times the pulse, over solid stretches; the pulse goes on beneath. */
export function movementLosses(
  recordings: readonly MarkedRecording[],
  perRecord: number,
  seed = 20261127,
): MovementReport {
  const grades = { solid: 0, shaky: 0, none: 0, off: 0, unreadable: 0 };
  let trials = 0;
  let lost = 0;
  recordings.forEach((recording, r) => {
    const source = makeCuttable(recording);
    const { rate } = recording;
    const random = createRandom(seed + 1000 * r);
    for (let i = 0; i < perRecord; i++) {
      const place = choosePlace(source, random);
      if (place === null) continue;
      const start = Math.max(0, Math.floor((place.cut - lead) * rate));
      const values = recording.values.slice(start, Math.ceil((place.back + tail) * rate));
      const first = Math.ceil(place.cut * rate) - start;
      const count = Math.ceil(place.back * rate) - start - first;
      const movement = makeNoise("movement", count, rate, random);
      const spread = Math.sqrt(movement.reduce((sum, x) => sum + x * x, 0) / count);
      const size = ((2 + 6 * random()) * source.height) / 2 / spread;
      for (let n = 0; n < count; n++) values[first + n]! += size * movement[n]!;
      const { losses, windows } = listenTo(values, rate);
      const within = losses.filter(({ seen }) => seen >= first / rate && seen < (first + count) / rate);
      trials++;
      if (within.length > 0) lost++;
      for (const { seen } of within) {
        const window = windows.find(({ from, to }) => seen >= from && seen < to);
        if (window !== undefined) grades[window.capture]++;
      }
    }
  });
  return { trials, lost, grades };
}
