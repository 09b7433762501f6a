/** Makes the table of src/pulse/presence-comb-table.ts: npx tsx scripts/accuracy/presence-table.ts [trials] */
import { takeDriftOff } from "../../src/pulse/presence-alone.js";
import { createComb } from "../../src/pulse/presence-comb.js";
import { createRandom, makeNoise } from "../../src/pulse/testing/noise.js";

const trials = Number(process.argv[2] ?? 40000);
const rate = 25;
const tails = [0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001, 0.0005];
for (const seconds of [5, 7.5, 10, 15, 20]) {
  const random = createRandom(525 + seconds * 10);
  const count = Math.floor(seconds * rate);
  const comb = createComb(count, rate);
  const scores = new Float64Array(trials);
  for (let i = 0; i < trials; i++) {
    const values = makeNoise("pink", count, rate, random);
    takeDriftOff(values, count / rate);
    scores[i] = comb.search(values)?.score ?? 0;
  }
  scores.sort();
  const row = tails.map((tail) => scores[Math.floor((1 - tail) * trials)]!.toFixed(2));
  console.log(`{ seconds: ${seconds}, scores: [${row.join(", ")}] },`);
}
