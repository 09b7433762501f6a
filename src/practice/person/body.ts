/**
 * One person with probes on: a heart, a limb under each probe, the light, and the truth about all of it. Time
 * runs only when it is asked to; the same seed and the same turns at the same samples give the same bits.
 */
import {
  type HeartControls,
  heartRows,
  restingHeart,
  restingSite,
  type SiteControls,
  siteRows,
} from "../controls/index.js";
import { PracticeError } from "../errors.js";
import { createHeart, type Heart } from "../heart/index.js";
import { PersonSite, type SiteBlock, type SitePlan } from "./person-site.js";
import { Ramps } from "./ramps.js";
import { drawTraits } from "./traits.js";

export interface BodyPlan {
  /** A whole number from 0 to 2^32 − 1: rhythm, noise and, unless `person` says otherwise, the person. */
  readonly seed: number;
  /** Samples per second, 25 to 1000. */
  readonly rate: number;
  /** One to eight. */
  readonly sites: readonly SitePlan[];
  /** `drawn` from the seed, the default, or the `usual` one. */
  readonly person?: "drawn" | "usual";
  /** 50 unless given. */
  readonly mainsHz?: 50 | 60;
  /** In time order. What is turned at once at 0 has been so for long: it is settled in. */
  readonly turns?: readonly TimedTurn[];
}

/** What `turn` takes: a control of the heart, or of a site when `site` is given. */
export interface TurnTo {
  readonly turn: string;
  readonly to: number | string;
  /** Position in the plan's list. */
  readonly site?: number;
  /** Seconds from the present value to the new one; at once unless given. */
  readonly over?: number;
}

export interface TimedTurn extends TurnTo {
  /** Seconds from the first sample. */
  readonly at: number;
}

export interface BodyBlock {
  /** Number of its first sample, from 0. */
  readonly first: number;
  /** In the plan's order; the arrays are used again by the next call. */
  readonly sites: readonly SiteBlock[];
}

/** Long enough for pressures, veins and the digit to find their rest. */
const settling = 20;
const longestStep = 0.002;
const mostSites = 8;

export class Body {
  readonly rate: number;
  /** The values in force. */
  readonly heartControls: Readonly<HeartControls>;
  readonly siteControls: readonly Readonly<SiteControls>[];
  private readonly heart: Heart;
  private readonly sites: readonly PersonSite[];
  private readonly heartRamps: Ramps;
  private readonly siteRamps: readonly Ramps[];
  private readonly substeps: number;
  /** Model time of the moment that is called 0. */
  private readonly zero: number;
  private samples = 0;
  private readonly block: { first: number; sites: SiteBlock[] };

  private readonly turns: readonly TimedTurn[];
  private turned = 0;

  /** @throws {PracticeError} for anything out of range */
  constructor(plan: BodyPlan) {
    const { seed, rate, person = "drawn", turns = [] } = plan;
    if (!(rate >= 25 && rate <= 1000))
      throw new PracticeError("bad-rate", `${rate} samples/s is not within 25 to 1000`);
    if (!(plan.sites.length >= 1 && plan.sites.length <= mostSites)) {
      throw new PracticeError(
        "unknown-site",
        `${plan.sites.length} sites; one to ${mostSites} can be watched`,
      );
    }
    this.rate = rate;
    this.substeps = Math.ceil(1 / (rate * longestStep) - 1e-9);
    const dt = 1 / (rate * this.substeps);
    const heartControls = restingHeart();
    const siteControls = plan.sites.map(restingSite);
    this.heartControls = heartControls;
    this.siteControls = siteControls;
    this.heartRamps = new Ramps(heartRows, heartControls);
    this.siteRamps = siteControls.map((controls) => new Ramps(siteRows, controls));
    turns.forEach(({ at }, n) => {
      if (!(at >= (turns[n - 1]?.at ?? 0)))
        throw new PracticeError("out-of-order", `row ${n + 1} at ${at} s`);
    });
    const start = turns.filter(({ at, over = 0 }) => at === 0 && over === 0);
    for (const turn of start) this.turn(turn);
    this.turns = turns.filter((turn) => !start.includes(turn));

    // A sample is the mean of its substeps and bears the time of their middle.
    const warm = Math.round(settling * rate);
    this.zero = warm / rate + (dt * (this.substeps + 1)) / 2;
    this.heart = createHeart({
      seed,
      dt,
      controls: heartControls,
      onBeat: (beat) => {
        const { r, ejection } = beat;
        const shifted = { ...beat, r: r - this.zero, ejection: ejection - this.zero };
        for (const site of this.sites) site.beat(shifted);
      },
    });
    const traits = person === "drawn" ? drawTraits(seed, plan.sites.length) : [];
    this.sites = plan.sites.map((site, at) => {
      const controls = siteControls[at] as SiteControls;
      const traitsHere = { ...traits[at], ...site.person };
      return new PersonSite(
        { ...site, person: traitsHere },
        { seed, rate, dt, at, controls, heart: this.heart.now, mainsHz: plan.mainsHz ?? 50 },
      );
    });
    this.block = { first: 0, sites: [] };
    for (let n = 0; n < warm; n++) this.runSample(null, 0);
    for (const site of this.sites) site.forgetBeats();
  }

  /** Seconds sent out so far. */
  get time(): number {
    return this.samples / this.rate;
  }

  /**
   * Turns a control from the next sample on.
   * @throws {PracticeError} `unknown-control`, `unknown-site`, `out-of-range`, `unknown-choice`
   */
  turn({ turn, to, site, over = 0 }: TurnTo): void {
    const ramps = site === undefined ? this.heartRamps : this.siteRamps[site];
    if (ramps === undefined) throw new PracticeError("unknown-site", `there is no site ${site}`);
    ramps.turn(turn, to, over, this.samples / this.rate);
  }

  /**
   * Runs `count` samples on.
   * @returns the same object each time, filled anew
   */
  advance(count: number): BodyBlock {
    if (!(Number.isInteger(count) && count >= 0 && count <= 1e7)) {
      throw new PracticeError("out-of-range", `${count} samples is not a whole number from 0 to 10000000`);
    }
    const blocks = this.sites.map((site) => site.room(count));
    this.block.first = this.samples;
    this.block.sites = blocks;
    for (let n = 0; n < count; n++) {
      const now = this.samples / this.rate;
      this.takeTurns(now);
      this.heartRamps.advance(now);
      for (const ramps of this.siteRamps) ramps.advance(now);
      this.runSample(blocks, n);
      this.samples++;
    }
    return this.block;
  }

  private takeTurns(now: number): void {
    for (;;) {
      const next = this.turns[this.turned];
      if (next === undefined || next.at > now) return;
      this.turn(next);
      this.turned++;
    }
  }

  private runSample(blocks: readonly SiteBlock[] | null, n: number): void {
    const { heart, sites, substeps, zero } = this;
    for (let step = 0; step < substeps; step++) {
      heart.step();
      const time = heart.now.time - zero;
      for (let s = 0; s < sites.length; s++) (sites[s] as PersonSite).step(time);
    }
    for (let s = 0; s < sites.length; s++) {
      (sites[s] as PersonSite).sample(
        substeps,
        heart.now.sinceEjection,
        blocks === null ? null : (blocks[s] as SiteBlock),
        n,
      );
    }
  }
}
