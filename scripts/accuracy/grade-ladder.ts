/**
 * Where the capture grade loses a pulse: real recordings with the pulse taken out and put back at a share of its size,
 * throughout the recording (nothing tells how large a pulse would be) or after half a minute at full size.
 */
import { pulsePart } from "../../src/pulse/testing/surrogate.js";
import { type GradeCounts, type GradedChannel, listenTo, noGrades } from "./grade.js";

export const ladderShares = [1, 1 / 2, 1 / 4, 1 / 8, 1 / 16, 1 / 32, 1 / 64, 0] as const;

/** Whether the trace holds pulses of full size before the weak ones. */
export type Before = "nothing" | "full pulses";

export interface LadderRow {
  readonly record: string;
  readonly before: Before;
  readonly share: number;
  readonly counts: GradeCounts;
  /** The same for windows in which what the surrogate leaves is below `littleLeft` of the pulse. */
  readonly clean: GradeCounts;
}

/** Rest over pulse, root mean square between 0.6 s and 0.06 s, below which little of the pulse is left behind. */
export const littleLeft = 0.1;

/** Full and weak pulses take turns of this length, s: short of the time the listener remembers the size of pulses. */
const turn = 30;
/** A beat of the weak turn may reach into the window before or after it; so much more is weakened, s. */
const margin = 1.5;
/** Windows with more than this without a marked beat keep some of their pulse and do not count, s. */
const unmarked = 0.15;

/** The share of the pulse at each sample: whole beats, because the part is zero at their feet. */
function gates(
  feet: readonly number[],
  rate: number,
  count: number,
  share: number,
  from: number,
): Float64Array {
  const gate = new Float64Array(count).fill(1);
  const weak = (time: number) => {
    const into = (((time - from) % (2 * turn)) + 2 * turn) % (2 * turn);
    return into < turn + margin || into >= 2 * turn - margin;
  };
  feet.forEach((foot, i) => {
    const end = feet[i + 1] ?? foot;
    if (weak(foot) || weak(end)) gate.fill(share, Math.ceil(foot * rate), Math.ceil(end * rate));
  });
  return gate;
}

/** What changes faster than a breath and slower than noise. */
function pulseBand(values: Float64Array, rate: number): Float64Array {
  const sums = new Float64Array(values.length + 1);
  values.forEach((x, i) => {
    sums[i + 1] = sums[i]! + (Number.isFinite(x) ? x : 0);
  });
  const mean = (i: number, half: number) => {
    const first = Math.max(0, i - half);
    const end = Math.min(values.length, i + half + 1);
    return (sums[end]! - sums[first]!) / (end - first);
  };
  const wide = Math.round(0.6 * rate);
  const narrow = Math.round(0.03 * rate);
  return values.map((_, i) => mean(i, narrow) - mean(i, wide));
}

export function gradeLadder(
  channels: readonly GradedChannel[],
  shares: readonly number[] = ladderShares,
): readonly LadderRow[] {
  return channels.flatMap(({ name, values, rate, feet, windows }) => {
    const part = pulsePart(values, rate, feet);
    const rest = values.map((x, i) => x - part[i]!);
    const left = pulseBand(rest, rate);
    const whole = pulseBand(part, rate);
    const good = windows.filter(({ from, to, label }) => {
      let bare = 0;
      for (let n = Math.round(from * rate); n < to * rate && n < part.length; n++) if (part[n] === 0) bare++;
      return label === "good" && bare <= unmarked * rate;
    });
    const isClean = ({ from, to }: { readonly from: number; readonly to: number }) => {
      let rests = 0;
      let pulses = 0;
      for (let n = Math.round(from * rate); n < to * rate && n < part.length; n++) {
        rests += left[n]! ** 2;
        pulses += whole[n]! ** 2;
      }
      return rests < littleLeft ** 2 * pulses;
    };
    const count = (
      graded: readonly { readonly from: number; readonly capture: keyof GradeCounts }[],
      row: Pick<LadderRow, "counts" | "clean">,
      wanted: (from: number) => boolean,
    ) => {
      for (const { from, capture } of graded) {
        const window = good.find((one) => Math.abs(one.from - from) < 0.1);
        if (window === undefined || !wanted(from)) continue;
        (row.counts as Record<string, number>)[capture]!++;
        if (isClean(window)) (row.clean as Record<string, number>)[capture]!++;
      }
    };
    return shares.flatMap((share) => {
      const cold = { record: name, before: "nothing" as const, share, counts: noGrades(), clean: noGrades() };
      count(
        listenTo(
          rest.map((x, i) => x + share * part[i]!),
          rate,
        ).windows,
        cold,
        () => true,
      );
      const warm = {
        record: name,
        before: "full pulses" as const,
        share,
        counts: noGrades(),
        clean: noGrades(),
      };
      for (const start of [turn, 0]) {
        const gate = gates(feet, rate, values.length, share, start);
        const graded = listenTo(
          rest.map((x, i) => x + gate[i]! * part[i]!),
          rate,
        ).windows;
        // Nothing is known before the first turn at full size.
        count(graded, warm, (from) => from >= turn && (from - start) % (2 * turn) < turn);
      }
      return [cold, warm];
    });
  });
}
