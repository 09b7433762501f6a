/**
 * Everything the practice limb computes, run once and named by its bits. Bundled into one script, it runs in
 * any engine; all must come to the same names.
 */
import { type HeartControls, restingHeart, rhythms } from "../controls/index.js";
import { createHeart } from "../heart/index.js";
import { Body, type SitePlan, type TimedTurn, truthColumns } from "../index.js";
import { cos, sin } from "../numbers/circle.js";
import { exp, log, power } from "../numbers/exponential.js";
import { createRandom } from "../numbers/random.js";
import { parsePracticeSite } from "../person/site.js";
import { Fingerprint } from "./fingerprint.js";

function numbers(): string {
  const print = new Fingerprint();
  const random = createRandom(12);
  for (let n = 0; n < 20_000; n++) {
    const x = 40 * random.uniform() - 20;
    print.add(exp(x), sin(100 * x), cos(100 * x), log(x * x + 1e-9), power(x * x, 0.85));
    print.add(random.normal(), random.gamma(3));
  }
  return print.text;
}

function heart(rhythm: HeartControls["rhythm"]): string {
  const print = new Fingerprint();
  const controls = { ...restingHeart(), rhythm, ectopics: 0.15 };
  const model = createHeart({
    seed: 77,
    dt: 0.002,
    controls,
    onBeat: (beat) => print.add(beat.r, beat.ejection, beat.ejectionTime, beat.strokeRatio),
  });
  for (let n = 0; n < 30_000; n++) {
    controls.rate = 70 + n / 600;
    controls.systolic = 120 - n / 800;
    model.step();
    print.add(model.now.aortic, model.now.centralVenous, model.now.toneWave, model.now.sinceEjection);
  }
  return print.text;
}

const site = (name: string, rest: Partial<SitePlan> = {}): SitePlan => ({
  at: parsePracticeSite(name),
  ...rest,
});

/** Cuff up and down, a narrowing, cold, movement of every kind, a slipped probe: every branch of the model. */
const turns: readonly TimedTurn[] = [
  { at: 0, turn: "tone", to: 0.6, site: 0 },
  { at: 2, turn: "cuff", to: 150, site: 0, over: 4 },
  { at: 8, turn: "narrowing", to: 0.9, site: 1, over: 3 },
  { at: 10, turn: "cuff", to: 0, site: 0, over: 20 },
  { at: 12, turn: "tissue", to: 60, site: 2, over: 5 },
  { at: 14, turn: "tremor", to: 1, site: 1 },
  { at: 15, turn: "knocks", to: 20, site: 1 },
  { at: 16, turn: "rubbing", to: 5, site: 2 },
  { at: 17, turn: "transport", to: 2, site: 2 },
  { at: 18, turn: "heartShake", to: 0.2, site: 3 },
  { at: 19, turn: "slosh", to: 10, site: 3 },
  { at: 20, turn: "height", to: 40, site: 2, over: 2 },
  { at: 22, turn: "rhythm", to: "fibrillation" },
  { at: 24, turn: "shift", to: 0.4, site: 3 },
  { at: 26, turn: "band", to: 40, site: 3 },
  { at: 30, turn: "contact", to: "off", site: 2 },
  { at: 32, turn: "rhythm", to: "steady-flow" },
];

function body(rate: number, seconds: number): string {
  const sites = [
    site("left index finger"),
    site("right thumb", { hand: "two-arteries" }),
    site("left great toe"),
    site("right ear"),
  ];
  const model = new Body({ seed: 2026, rate, sites, turns });
  const print = new Fingerprint();
  for (let second = 0; second < seconds; second++) {
    for (const block of model.advance(rate).sites) {
      print.addAll(block.infrared).addAll(block.red);
      for (const column of truthColumns) print.addAll(block.truth[column]);
      for (const beat of block.beats) print.add(beat.r, beat.foot ?? -1, beat.peak ?? -1, beat.systolic);
    }
  }
  return print.text;
}

/** Part of the model → name of its bits. */
export function sameBits(): Record<string, string> {
  return {
    numbers: numbers(),
    ...Object.fromEntries(rhythms.map((rhythm) => [`heart, ${rhythm}`, heart(rhythm)])),
    "body at 125 samples/s": body(125, 40),
    "body at 64 samples/s": body(64, 34),
  };
}
