/**
 * How often pink noise alone gives a comb score at least this high, best of all rates and delays.
 * Made once by `npx tsx scripts/accuracy/presence-table.ts 40000`: it pays for the search and for the floor's own scatter.
 */
const tails = [0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001, 0.0005] as const;

/** One row per window length in seconds; scores in the order of `tails`. */
const rows: readonly { readonly seconds: number; readonly scores: readonly number[] }[] = [
  { seconds: 5, scores: [2.94, 3.38, 3.68, 4.0, 4.46, 4.84, 5.31, 5.98, 6.56, 7.13] },
  { seconds: 7.5, scores: [3.08, 3.49, 3.75, 4.01, 4.33, 4.6, 4.92, 5.38, 5.75, 6.15] },
  { seconds: 10, scores: [3.17, 3.56, 3.81, 4.05, 4.36, 4.61, 4.91, 5.28, 5.52, 5.74] },
  { seconds: 15, scores: [3.36, 3.74, 3.99, 4.21, 4.5, 4.73, 4.97, 5.31, 5.63, 5.89] },
  { seconds: 20, scores: [3.45, 3.82, 4.06, 4.28, 4.57, 4.79, 5.02, 5.34, 5.58, 5.77] },
];

/** Smallest chance the table can speak of: one tenth of its last column. */
const smallest = 0.00005;

function chanceInRow(score: number, scores: readonly number[]): number {
  if (score <= scores[0]!) return 1 - (1 - tails[0]) * Math.max(0, score / scores[0]!);
  let i = 1;
  while (i < scores.length - 1 && scores[i]! < score) i++;
  // Straight in the logarithm of the chance; beyond the table on with its last piece.
  const share = (score - scores[i - 1]!) / (scores[i]! - scores[i - 1]!);
  const log = Math.log(tails[i - 1]!) + share * Math.log(tails[i]! / tails[i - 1]!);
  return Math.max(smallest, Math.exp(log));
}

/**
 * @param score from the comb
 * @param seconds length of the window; the table's ends hold for shorter and longer ones
 * @returns 0.00005 to 1
 */
export function chanceOfScore(score: number, seconds: number): number {
  let i = 1;
  while (i < rows.length - 1 && rows[i]!.seconds < seconds) i++;
  const before = rows[i - 1]!;
  const after = rows[i]!;
  const share = Math.min(1, Math.max(0, (seconds - before.seconds) / (after.seconds - before.seconds)));
  const a = Math.log(chanceInRow(score, before.scores));
  const b = Math.log(chanceInRow(score, after.scores));
  return Math.exp(a + share * (b - a));
}
