/**
 * Quality indices as published, each with its published limit, for comparison and for display.
 * The capture grade does not rest on them alone: capture-grade.ts says what it uses.
 */

/** How well a limit is supported: read in the source or an excerpt of it, or written from memory. */
export type QualitySupport = "published" | "from-memory";

export interface QualityLimit {
  readonly value: number;
  readonly unit: string;
  readonly source: string;
  readonly support: QualitySupport;
}

const elgendi = "M. Elgendi, Bioengineering 2016;3(4):21";
const orphanidou = "C. Orphanidou et al., IEEE J Biomed Health Inform 2015;19:832";

/** Limits of the indices below. */
export const publishedQuality = {
  skewness: { value: 0, unit: "1", source: elgendi, support: "from-memory" },
  slowest: { value: 40, unit: "/min", source: orphanidou, support: "published" },
  fastest: { value: 180, unit: "/min", source: orphanidou, support: "published" },
  longestGap: { value: 3, unit: "s", source: orphanidou, support: "published" },
  intervalRatio: { value: 2.2, unit: "1", source: orphanidou, support: "published" },
  templateCorrelation: { value: 0.86, unit: "1", source: orphanidou, support: "from-memory" },
} as const satisfies Record<string, QualityLimit>;

/**
 * Skewness of the samples about their mean, m3 / m2^1.5; a good upright pleth is above 0 over 3 to 5 s.
 *
 * @returns `null` for a constant or fewer than three samples; missing samples are left out
 * @see publishedQuality.skewness
 */
export function skewness(values: ArrayLike<number>): number | null {
  let count = 0;
  let mean = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i]!)) continue;
    count++;
    mean += (values[i]! - mean) / count;
  }
  let second = 0;
  let third = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i]!)) continue;
    const off = values[i]! - mean;
    second += off * off;
    third += off * off * off;
  }
  return count < 3 || second === 0 ? null : third / count / (second / count) ** 1.5;
}

/** Which of the interval rules hold. `null` where there are too few beats to say. */
export interface IntervalRules {
  /** Mean rate within 40 to 180 /min. */
  readonly rate: boolean | null;
  /** No interval over 3 s. */
  readonly gap: boolean | null;
  /** Longest over shortest interval below 2.2. */
  readonly ratio: boolean | null;
}

/**
 * The interval rules for 10 s windows.
 *
 * @param beats seconds, rising
 * @see publishedQuality.slowest and its neighbours
 */
export function intervalRules(beats: readonly number[]): IntervalRules {
  if (beats.length < 2) return { rate: null, gap: null, ratio: null };
  let shortest = Number.POSITIVE_INFINITY;
  let longest = 0;
  for (let b = 1; b < beats.length; b++) {
    const interval = beats[b]! - beats[b - 1]!;
    shortest = Math.min(shortest, interval);
    longest = Math.max(longest, interval);
  }
  const rate = (60 * (beats.length - 1)) / (beats.at(-1)! - beats[0]!);
  return {
    rate: rate >= publishedQuality.slowest.value && rate <= publishedQuality.fastest.value,
    gap: longest <= publishedQuality.longestGap.value,
    ratio: longest / shortest < publishedQuality.intervalRatio.value,
  };
}

/** Pearson's correlation of two lists of one length; `null` where either is constant or shorter than 2. */
export function correlation(a: ArrayLike<number>, b: ArrayLike<number>): number | null {
  const n = Math.min(a.length, b.length);
  let meanA = 0;
  let meanB = 0;
  for (let i = 0; i < n; i++) {
    meanA += a[i]! / n;
    meanB += b[i]! / n;
  }
  let aa = 0;
  let bb = 0;
  let ab = 0;
  for (let i = 0; i < n; i++) {
    const x = a[i]! - meanA;
    const y = b[i]! - meanB;
    aa += x * x;
    bb += y * y;
    ab += x * y;
  }
  return n < 2 || aa === 0 || bb === 0 ? null : ab / Math.sqrt(aa * bb);
}

/**
 * Mean correlation of pulses of one length with their mean; at least 0.86 for a pleth.
 *
 * @returns `null` without two pulses
 * @see publishedQuality.templateCorrelation
 */
export function templateCorrelation(pulses: readonly ArrayLike<number>[]): number | null {
  if (pulses.length < 2) return null;
  const length = Math.min(...pulses.map((pulse) => pulse.length));
  const template = Float64Array.from({ length }, (_, i) => {
    return pulses.reduce((sum, pulse) => sum + pulse[i]!, 0) / pulses.length;
  });
  return meanOf(pulses.map((pulse) => correlation(pulse, template)));
}

/**
 * Mean correlation of each pulse with the one before, both stretched to one length by the caller.
 *
 * @see S. Jang et al., EMBC 2018; the paper's limit was not found
 */
export function successiveCorrelation(pulses: readonly ArrayLike<number>[]): number | null {
  return meanOf(pulses.slice(1).map((pulse, i) => correlation(pulse, pulses[i]!)));
}

/** Longest run of equal values, in samples; runs of missing samples do not count. */
export function longestEqualRun(values: ArrayLike<number>): number {
  let longest = 0;
  let run = 0;
  for (let i = 0; i < values.length; i++) {
    run = i > 0 && values[i] === values[i - 1] ? run + 1 : Number.isNaN(values[i]!) ? 0 : 1;
    if (run > longest) longest = run;
  }
  return longest;
}

function meanOf(list: readonly (number | null)[]): number | null {
  const known = list.filter((value) => value !== null);
  return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length;
}
