/** One site of the person: its vessels, its probe, and the columns they fill. */
import type { SiteControls } from "../controls/index.js";
import type { HeartBeat, HeartNow } from "../heart-now.js";
import { createProbe, type Probe } from "../light/index.js";
import { createVessels, type Hand, type VesselPerson, type Vessels } from "../vessels/index.js";
import { BeatTruth } from "./beat-truth.js";
import { type PracticeSite, placeOf } from "./site.js";
import { contactCodes, type TruthBeat, type TruthColumns, truthColumns, wayCodes } from "./truth.js";

export interface SitePlan {
  readonly at: PracticeSite;
  /** A hand with two arteries and an arch; one artery unless given. */
  readonly hand?: Hand;
  /** What differs from the person drawn. */
  readonly person?: Partial<VesselPerson>;
  /** Of the converter, 8 to 24; 18 unless given. */
  readonly bits?: number;
}

export interface SiteBlock {
  /** Light as stored, share of the converter's full scale. */
  readonly infrared: Float64Array;
  readonly red: Float64Array;
  readonly truth: TruthColumns;
  /** Beats that came to their end at this site within the block. */
  readonly beats: readonly TruthBeat[];
}

interface Surroundings {
  readonly seed: number;
  readonly rate: number;
  readonly dt: number;
  /** Position in the plan's list. */
  readonly at: number;
  readonly controls: SiteControls;
  readonly heart: HeartNow;
  readonly mainsHz: number;
}

export class PersonSite {
  private readonly vessels: Vessels;
  private readonly probe: Probe;
  private readonly beats: BeatTruth;
  private held: SiteBlock = makeBlock(0);
  private arterial = 0;
  private venous = 0;
  private saturation = 0;

  constructor(plan: SitePlan, { seed, rate, dt, at, controls, heart, mainsHz }: Surroundings) {
    const place = placeOf(plan.at);
    this.vessels = createVessels({
      place,
      dt,
      heart,
      controls,
      ...(plan.hand === undefined ? {} : { hand: plan.hand }),
      ...(plan.person === undefined ? {} : { person: plan.person }),
    });
    this.probe = createProbe({
      seed,
      probe: at,
      rate,
      place,
      mainsHz,
      controls,
      ...(plan.bits === undefined ? {} : { bits: plan.bits }),
    });
    this.beats = new BeatTruth(place);
  }

  beat(beat: HeartBeat): void {
    this.beats.begin(beat);
  }

  /** What came before time 0 is nobody's business. */
  forgetBeats(): void {
    this.beats.ended.length = 0;
  }

  /** One substep; `time` in s of the recording. */
  step(time: number): void {
    const { vessels, beats } = this;
    vessels.step();
    const { now } = vessels;
    beats.step(time, now);
    this.arterial += now.arterialPath;
    this.venous += now.venousPath;
    this.saturation += now.saturation;
  }

  /** Arrays for `count` samples, used again when they fit. */
  room(count: number): SiteBlock {
    if (this.held.infrared.length !== count) this.held = makeBlock(count);
    (this.held.beats as TruthBeat[]).length = 0;
    return this.held;
  }

  /** Closes a sample over `substeps` substeps, and writes it to place `n` of the block if there is one. */
  sample(substeps: number, sinceEjection: number, block: SiteBlock | null, n: number): void {
    const { probe, beats, vessels } = this;
    probe.sample(this.arterial / substeps, this.venous / substeps, this.saturation / substeps, sinceEjection);
    this.arterial = 0;
    this.venous = 0;
    this.saturation = 0;
    if (block === null) return;
    block.infrared[n] = probe.infrared;
    block.red[n] = probe.red;
    const { truth } = block;
    const { now } = vessels;
    truth.flow[n] = now.flowFraction;
    truth.digitPressure[n] = now.digit;
    truth.upstream[n] = now.upstream;
    truth.downstream[n] = now.downstream;
    truth.external[n] = now.external;
    truth.saturation[n] = now.saturation;
    truth.way[n] = wayCodes[beats.way];
    truth.perfusionIndex[n] = beats.perfusionIndex;
    const { contact, shift } = probe.state;
    truth.contact[n] = contactCodes[contact === "on" && shift > 0 ? "partly" : contact];
    for (const beat of beats.ended) if ((beat.peak ?? beat.r) >= 0) (block.beats as TruthBeat[]).push(beat);
    beats.ended.length = 0;
  }
}

function makeBlock(count: number): SiteBlock {
  const truth = Object.fromEntries(truthColumns.map((name) => [name, new Float64Array(count)]));
  return {
    infrared: new Float64Array(count),
    red: new Float64Array(count),
    truth: truth as unknown as TruthColumns,
    beats: [],
  };
}
