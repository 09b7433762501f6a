/**
 * False reassurance on the practice limb: the suspect side's artery is shut, nothing goes round it, and probe,
 * movement and light do what they can to look like a pulse. How does the comparison of the two sides end?
 */
import { compareSides } from "../../../src/limb/compare.js";
import type { Verdict } from "../../../src/limb/comparison.js";
import { undisturbed } from "../../../src/limb/testing/make-reading.js";
import type { Seconds } from "../../../src/model/index.js";
import { noPath, restingSite, type SiteControls, type TimedTurn } from "../../../src/practice/index.js";
import { createRandom, type Random } from "../../../src/pulse/testing/noise.js";
import { chokePressures, overhear } from "./overheard.js";

export interface OcclusionScore {
  readonly trials: number;
  /** Trials in which the model itself says that a pulse came through: none is expected. */
  readonly notShut: number;
  /** By disturbance, then verdict. */
  readonly verdicts: ReadonlyMap<string, Readonly<Partial<Record<Verdict, number>>>>;
}

const rate = 100;
const stretch = 20;
const stretchesAPerson = 20;
const settle = 15;

const sites = [
  { at: { side: "right", digit: "index finger" } },
  { at: { side: "left", digit: "index finger" } },
] as const;

type Disturbed = Partial<Record<Exclude<keyof SiteControls, "contact">, number>>;

/** Between the two, each factor as likely. */
const spread = (random: Random, low: number, high: number) => low * (high / low) ** random();

/** What happens at the suspect side during one stretch. */
const disturbances: Readonly<Record<string, (random: Random, heart: number) => Disturbed>> = {
  quiet: (random) => ({ photocurrent: spread(random, 2, 200) }),
  drift: (random) => ({ drift: spread(random, 0.3, 8) }),
  tremor: (random) => ({ tremor: spread(random, 0.05, 3) }),
  knocks: (random) => ({ knocks: spread(random, 1, 40), knocksPerMinute: spread(random, 6, 110) }),
  "rubbing at any rate": (random) => ({
    rubbing: spread(random, 0.2, 10),
    rubbingRate: spread(random, 25, 190),
  }),
  "rubbing at the heart's rate": (random, heart) => ({
    rubbing: spread(random, 0.2, 6),
    rubbingRate: Math.min(200, heart * spread(random, 0.97, 1.03)),
  }),
  transport: (random) => ({ transport: spread(random, 0.1, 6) }),
  "heart shakes the probe": (random) => ({ heartShake: spread(random, 0.02, 0.6) }),
  slosh: (random) => ({ slosh: spread(random, 1, 20), drift: 0.5 }),
  "half on": (random) => ({ shift: 0.2 + 0.6 * random(), heartShake: spread(random, 0.02, 0.3) }),
};

/** The suspect side tells everything and hides nothing: the conditions under which `no-difference` is easiest. */
const stated = {
  oneClock: true,
  mechanism: "fracture",
  sameDigit: null,
  sameHeight: true,
  sameProbe: true,
  soundHurt: false,
} as const;

export function scoreOcclusions(trials: number, seed: number): OcclusionScore {
  const verdicts = new Map<string, Partial<Record<Verdict, number>>>();
  const names = Object.keys(disturbances);
  let notShut = 0;
  for (let done = 0, person = 0; done < trials; person++) {
    const random = createRandom(seed + 104_729 * person);
    const heart = 45 + 100 * random();
    const shutBy: TimedTurn[] =
      person % 2 === 0
        ? [
            { at: 0, site: 1, turn: "narrowing", to: 1 },
            { at: 0, site: 1, turn: "collateral", to: noPath },
          ]
        : [{ at: 0, site: 1, turn: "cuff", to: 180 + 60 * random() }];
    const turns: TimedTurn[] = [
      { at: 0, turn: "rate", to: heart },
      { at: 0, turn: "rhythm", to: random() < 0.15 ? "fibrillation" : "sinus" },
      { at: 0, site: 0, turn: "tone", to: -1 + 2.2 * random() },
      { at: 0, site: 1, turn: "tone", to: -1 + 2.8 * random() },
      ...shutBy,
    ];
    const kinds: string[] = [];
    const count = Math.min(stretchesAPerson, trials - done);
    for (let k = 0; k < count; k++) {
      const kind = names[Math.floor(random() * names.length)]!;
      kinds.push(kind);
      const at = settle + k * stretch;
      const wanted = { ...calm, ...disturbances[kind]!(random, heart) };
      for (const [turn, to] of Object.entries(wanted)) turns.push({ at, site: 1, turn, to });
    }
    const person2 = { chokePressure: chokePressures[person % 4 < 2 ? 0 : 1]! };
    const plan = {
      seed: seed + person,
      rate,
      turns,
      sites: sites.map((site) => ({ ...site, person: person2 })),
    };
    const { body, ears, advance } = overhear(plan);
    let shut = true;
    const look = (blocks: readonly { readonly beats: readonly { readonly way: string }[] }[]) => {
      if (blocks[1]!.beats.some(({ way }) => way !== "none")) shut = false;
    };
    advance(settle * rate, undefined);
    for (const kind of kinds) {
      shut = true;
      const from = body.time;
      // The last window of a stretch is graded once the next samples are in.
      advance(stretch * rate, look);
      if (!shut) notShut++;
      const reading = { from: (from - 2) as Seconds, to: (from + stretch - 2) as Seconds, saturation: null };
      const sound = ears[0]!.reading({ ...reading, reference: null, declared: undisturbed });
      const suspect = ears[1]!.reading({
        ...reading,
        reference: { kind: "other-side", beats: ears[0]!.feet() },
        declared: undisturbed,
      });
      const { verdict } = compareSides(sound, suspect, stated);
      const row = verdicts.get(kind) ?? {};
      row[verdict] = (row[verdict] ?? 0) + 1;
      verdicts.set(kind, row);
    }
    done += count;
  }
  return { trials, notShut, verdicts };
}

/** Every control a disturbance may touch, at rest, so that one stretch does not leak into the next. */
const rest = restingSite();
const touched = [
  "photocurrent",
  "drift",
  "tremor",
  "knocks",
  "knocksPerMinute",
  "rubbing",
  "rubbingRate",
  "transport",
  "heartShake",
  "slosh",
  "shift",
] as const;
const calm: Disturbed = Object.fromEntries(touched.map((name) => [name, rest[name]]));
