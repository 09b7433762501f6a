/** Everything between the aorta and the light: one limb, one step at a time. */
import type { SiteControls } from "../controls/index.js";
import { PracticeError } from "../errors.js";
import type { HeartNow } from "../heart-now.js";
import type { VesselsNow } from "../vessels-now.js";
import { constants as c } from "./constants.js";
import { Digit } from "./digit.js";
import { Glide } from "./glide.js";
import { heightDelay } from "./height.js";
import { Narrowing } from "./narrowing.js";
import { OneArtery } from "./one-artery.js";
import { type VesselPerson, vesselPerson } from "./person.js";
import { type Place, type PlaceRow, placeRows, places } from "./places.js";
import type { Route, Sections } from "./route.js";
import { SlowStates } from "./slow-states.js";
import { Surroundings } from "./surroundings.js";
import { Travel } from "./travel.js";
import { TwoArteries } from "./two-arteries.js";
import { Veins } from "./veins.js";

export const hands = ["one-artery", "two-arteries"] as const;
export type Hand = (typeof hands)[number];

export interface VesselsOptions {
  readonly place: Place;
  /** Only a finger or thumb can have two arteries; the probe sits on the radial side. */
  readonly hand?: Hand;
  readonly person?: Partial<VesselPerson>;
  /** Step, s; above 0, at most 0.002. */
  readonly dt: number;
  /** Read at each step, after the heart's own. */
  readonly heart: HeartNow;
  /** Read at each step. */
  readonly controls: SiteControls;
}

const longestStep = 0.002;
/** Slow states are worked out this often, s. */
const slowSpan = 0.02;
/** Mean pressure at rest, mmHg: what flows are compared with. */
const restingPressure = 92;
/** What the muscles take then, ml/s. */
const restingMuscle = (restingPressure - c.muscleStop.value) / c.muscle.value;
const muscleStop = c.muscleStop.value;
const venousPath = c.venousPath.value;
const venousPathRise = c.venousPathRise.value;
/** Places of the gliding values. */
const columns = 0;
const delays = 1;
const muscles = 2;
/** Diameter of a wrist artery, cm. */
const wristDiameter = 0.25;

/**
 * Semi-implicit Euler steps: stable at any setting within range, changed at any step.
 * @throws {PracticeError} `bad-rate`, `unknown-choice`, `out-of-range`
 */
export function createVessels(options: VesselsOptions): Vessels {
  return new Vessels(options);
}

export class Vessels {
  readonly now: VesselsNow;
  private readonly heart: HeartNow;
  private readonly controls: SiteControls;
  private readonly person: VesselPerson;
  private readonly row: PlaceRow;
  private readonly around = new Surroundings();
  private readonly travel: Travel;
  private readonly route: Route;
  private readonly veins: Veins;
  private readonly digit: Digit;
  private readonly slow: SlowStates;
  private readonly narrowing: Narrowing;
  private readonly radial = new Narrowing(wristDiameter);
  private readonly ulnar = new Narrowing(wristDiameter);
  private readonly two: boolean;
  private readonly gain: number;
  private readonly every: number;
  private readonly span: number;
  private readonly glide: Glide;
  /** Column of blood from the heart up to the digit, mmHg, as the last step had it. */
  private column: number;
  private turnedTone: number;
  private turnedHeight: number;
  private recruited = 0;
  private steps = 0;
  private muscleSum = 0;
  private digitSum = 0;

  constructor(options: VesselsOptions) {
    const { place, hand = "one-artery", dt, heart, controls } = options;
    if (!(dt > 0 && dt <= longestStep * (1 + 1e-6))) {
      throw new PracticeError("bad-rate", `a step of ${dt} s is not above 0 and at most ${longestStep} s`);
    }
    if (!places.includes(place)) {
      throw new PracticeError("unknown-choice", `place ${place} is none of ${places.join(", ")}`);
    }
    this.two = hand === "two-arteries";
    if (!hands.includes(hand) || (this.two && (place === "toe" || place === "ear"))) {
      throw new PracticeError("unknown-choice", `hand ${hand} at a ${place} is none of ${hands.join(", ")}`);
    }
    this.heart = heart;
    this.controls = controls;
    this.person = vesselPerson(options.person);
    this.row = placeRows[place];
    this.gain = this.person.gain * this.row.gain;
    this.around.hand = 1 / c.hand.value;
    this.every = Math.max(1, Math.round(slowSpan / dt));
    this.span = this.every * dt;
    this.turnedTone = controls.tone;
    this.turnedHeight = controls.height;

    const pressure = Math.max(heart.aortic, 0);
    const column = c.hydrostatic.value * controls.height;
    const flow = (pressure - c.muscleStop.value) / c.muscle.value;
    const veins = heart.centralVenous + Math.max(flow, 0) * c.venousResistance.value;
    this.column = column;
    this.glide = new Glide([column, this.delayAt(column, 0), 1 / c.muscle.value]);
    this.travel = new Travel(1, dt, pressure);
    this.narrowing = new Narrowing(this.row.diameter === 0 ? 1 : this.row.diameter);
    const sections = this.sections();
    this.route = this.two
      ? new TwoArteries(sections, this.around, dt, pressure)
      : new OneArtery(sections, this.around, dt, pressure);
    this.veins = new Veins(veins, dt);
    this.slow = new SlowStates(Math.max(veins - column, 0), heart.saturation);
    const tone = this.turnedTone + heart.toneWave + this.slow.reflex;
    const { digitTime, closing } = this.person;
    this.digit = new Digit(dt, digitTime, closing, restingPressure, tone, pressure - column);
    this.now = {
      arterialPath: 0,
      venousPath: 0,
      saturation: heart.saturation,
      upstream: pressure,
      downstream: pressure,
      digit: 0,
      external: 0,
      mainFlow: 0,
      collateralFlow: 0,
      flowFraction: 0,
      muscleFraction: 0,
      venous: veins,
    };
    this.show();
  }

  /** One step of `dt`, with the heart and the controls as they stand. */
  step(): void {
    if (this.steps === 0) this.slowStep();
    this.steps = this.steps + 1 === this.every ? 0 : this.steps + 1;

    const { around, controls, heart, route, digit, travel, veins, glide } = this;
    glide.next();
    const column = glide.values[columns] as number;
    const veinsAtDigit = Math.max(veins.pressure - column, 0);
    this.column = column;
    travel.input = heart.aortic;
    travel.delay = glide.values[delays] as number;
    travel.step();

    around.root = travel.output;
    around.muscle = glide.values[muscles] as number;
    around.muscleFloor = Math.max(veins.pressure, muscleStop);
    around.handFloor = Math.max(veinsAtDigit, digit.closing) + column;
    let outlet = heart.centralVenous;
    if (this.row.limb) {
      const { cuff, tissue } = controls;
      around.cuff = cuff;
      around.external = Math.max(cuff, tissue);
      around.muscleFloor = Math.max(around.muscleFloor, tissue);
      outlet = Math.max(outlet, cuff, controls.band);
      this.narrow();
    }
    route.step();

    veins.inflow = route.muscleFlow + route.handFlow;
    veins.outlet = outlet;
    veins.step();
    digit.supply = route.downstream - column;
    digit.veins = veinsAtDigit;
    digit.step();
    this.muscleSum += route.muscleFlow;
    this.digitSum += digit.flow;
    this.show();
  }

  private narrow(): void {
    const { around, controls, narrowing } = this;
    narrowing.set(controls.narrowing);
    around.linear = narrowing.linear;
    around.quadratic = narrowing.quadratic;
    around.collateral = 1 / controls.collateral;
    if (!this.two) return;
    this.radial.set(controls.radialPress);
    this.ulnar.set(controls.ulnarPress);
    around.radial = this.radial.linear;
    around.ulnar = this.ulnar.linear;
    around.arch = 1 / this.archNow();
  }

  /** Resistance of the arch: a lazy one opens while a wrist artery is shut. */
  private archNow(): number {
    const { arch } = this.controls;
    const { recruitment } = this.person;
    if (recruitment === null || recruitment.resistance >= arch) return arch;
    return recruitment.resistance + (arch - recruitment.resistance) * (1 - this.recruited);
  }

  private slowStep(): void {
    const { controls, heart, slow, span, every, veins } = this;
    const veinsAtDigit = Math.max(veins.pressure - this.column, 0);
    if (this.digitSum > 0 || this.muscleSum > 0) {
      slow.step(
        span,
        this.muscleSum / every / restingMuscle,
        this.digitSum / every,
        this.digit.need,
        veinsAtDigit,
        heart.saturation,
      );
    }
    this.muscleSum = 0;
    this.digitSum = 0;
    this.turnedTone += (controls.tone - this.turnedTone) * (span / (c.turnLag.value + span));
    this.turnedHeight += (controls.height - this.turnedHeight) * (span / (c.moveLag.value + span));
    this.recruit();

    const column = c.hydrostatic.value * this.turnedHeight;
    this.glide.aim(columns, column, every);
    this.glide.aim(delays, this.delayAt(column, slow.muscle + slow.flowMediated), every);
    this.glide.aim(muscles, (1 + c.muscleDilated.value * slow.muscle) / c.muscle.value, every);
    this.digit.aim(this.turnedTone + heart.toneWave + slow.reflex, slow.digit, slow.flowMediated, every);
  }

  private recruit(): void {
    const { recruitment } = this.person;
    if (recruitment === null) return;
    const { radialPress, ulnarPress } = this.controls;
    const shut = Math.max(radialPress, ulnarPress) >= c.archReady.value;
    this.recruited += ((shut ? 1 : 0) - this.recruited) * (this.span / (recruitment.time + this.span));
  }

  private delayAt(column: number, dilated: number): number {
    const level = this.row.delay * this.person.delay;
    if (!this.row.limb) return level;
    const changed = (level + c.sectionDelay.value) * (heightDelay(column) - 1);
    return level + changed + c.dilatedDelay.value * dilated;
  }

  private sections(): Sections {
    const { inertance, resistance, compliance } = this.row;
    const soft = compliance * this.person.compliance;
    return {
      inertance1: c.inertance1.value * inertance,
      resistance1: c.resistance1.value * resistance,
      compliance1: c.compliance1.value * soft,
      inertance2: c.inertance2.value * inertance,
      resistance2: c.resistance2.value * resistance,
      compliance2: c.compliance2.value * soft,
      chokePressure: this.person.chokePressure,
    };
  }

  private show(): void {
    const { now, route, veins, around } = this;
    now.arterialPath = this.gain * this.digit.volume;
    now.venousPath = venousPath + venousPathRise * Math.max(veins.pressure - this.column, 0);
    now.saturation = this.slow.saturation;
    now.upstream = route.upstream;
    now.downstream = route.downstream;
    now.digit = this.digit.pressure;
    now.external = around.external;
    now.mainFlow = route.mainFlow;
    now.collateralFlow = route.collateralFlow;
    now.flowFraction = this.digit.flow;
    now.muscleFraction = route.muscleFlow / restingMuscle;
    now.venous = veins.pressure;
  }
}
