/**
 * The probe: from blood in the digit to two colours of light as a device stores them, with the truth about the
 * probe beside them. Light falls in systole: more blood lets less through.
 */
import type { Contact, SiteControls } from "../controls/index.js";
import { PracticeError } from "../errors.js";
import { exp } from "../numbers/exponential.js";
import { createRandom } from "../numbers/random.js";
import { absorption, infraredDeoxy, infraredOxy, redDeoxy, redOxy } from "./absorption.js";
import { lightConstants as c } from "./constants.js";
import { LampRipple } from "./lamp-ripple.js";
import { lightLeft } from "./light-left.js";
import { Movement } from "./movement.js";
import { Receiver } from "./receiver.js";
import { lightStreams, streamsPerProbe } from "./streams.js";

export type ProbePlace = "finger" | "thumb" | "toe" | "ear";

export interface ProbeOptions {
  /** A whole number from 0 to 2^32 − 1. */
  readonly seed: number;
  /** Which probe of the person: 0 for the first. Probes of one seed have random numbers of their own. */
  readonly probe?: number;
  /** Output samples per second, 25 to 1000. */
  readonly rate: number;
  readonly place?: ProbePlace;
  /** Of the converter over the amplifier's full scale, 8 to 24; 18 unless given. */
  readonly bits?: number;
  /** 50 or 60; the lamps flicker at twice that. 50 unless given. */
  readonly mainsHz?: number;
  /** Read anew at each sample, never written. */
  readonly controls: SiteControls;
}

/** What is true of the probe at this sample. */
export interface ProbeState {
  contact: Contact;
  /** Share of the light that passes beside the digit, 0 to 1. */
  shift: number;
  /** Whether the probe is on the move over the digit: slipping, shifting, coming off or going on. */
  slipping: boolean;
  /** Whether either colour stands at the top or bottom of the amplifier's scale. */
  clipped: boolean;
  /** Movement felt now: the light of both colours is multiplied by 1 + this. */
  movement: number;
}

/** Streams of the probes begin here; those below belong to other parts of the model. */
const firstStream = 4096;
/** Slower than this, share of scale from one sample to where it will rest, and the probe counts as still. */
const still = 0.005;

const placeLight: Readonly<Record<ProbePlace, number>> = {
  finger: c.fingerLight.value,
  thumb: c.thumbLight.value,
  toe: c.toeLight.value,
  ear: c.earLight.value,
};

/** Light left by resting blood, per colour: the lamps were set on it. */
const restingInfrared = leftByResting("infrared");
const restingRed = leftByResting("red");

function leftByResting(colour: "infrared" | "red"): number {
  const venous = absorption(colour, c.venousSaturation.value) * c.restingVenousPath.value;
  return exp(-absorption(colour, 0.97) * c.restingArterialPath.value - venous);
}

export class Probe {
  /** Light stored for this sample, share of the amplifier's full scale, 0 to 1, on the converter's steps. */
  infrared = 0;
  red = 0;
  readonly state: ProbeState = {
    contact: "on",
    shift: 0,
    slipping: false,
    clipped: false,
    movement: 0,
  };
  private readonly controls: SiteControls;
  private readonly movement: Movement;
  private readonly lamps: LampRipple;
  private readonly infraredReceiver: Receiver;
  private readonly redReceiver: Receiver;
  private readonly placeLight: number;
  private readonly move: number;
  private readonly venousInfrared = absorption("infrared", c.venousSaturation.value);
  private readonly venousRed = absorption("red", c.venousSaturation.value);
  private readonly sloshPath = c.venousPathPerPressure.value * Math.SQRT1_2;
  private slip: number;
  private shift: number;
  private on: number;

  constructor(options: ProbeOptions) {
    const { seed, rate, controls, probe = 0, place = "finger", bits = 18, mainsHz = 50 } = options;
    this.controls = controls;
    const first = firstStream + probe * streamsPerProbe;
    this.movement = new Movement(rate, seed, first);
    this.lamps = new LampRipple(mainsHz, rate, createRandom(seed, first + lightStreams.lamps));
    this.infraredReceiver = new Receiver(bits, seed, first + lightStreams.infraredNoise);
    this.redReceiver = new Receiver(bits, seed, first + lightStreams.redNoise);
    this.placeLight = placeLight[place];
    this.move = 1 - exp(-1 / (rate * c.moveTime.value));
    this.slip = controls.slip;
    this.shift = controls.shift;
    this.on = controls.contact === "off" ? 0 : 1;
  }

  /**
   * One output sample.
   * @param arterialPath  arterial blood in the light's way, cm
   * @param venousPath    venous blood in the light's way, cm
   * @param saturation    of the arterial blood in the digit, 0 to 1
   * @param sinceEjection seconds since the last ejection began
   */
  sample(arterialPath: number, venousPath: number, saturation: number, sinceEjection: number): void {
    const { controls, movement, lamps, state } = this;
    movement.next(controls, sinceEjection);
    lamps.next();
    this.settle();
    const { shift, slip, on } = this;

    const moved = venousPath + this.sloshPath * controls.slosh * movement.slosh;
    const venous = Math.max(moved, 0);
    const path = 1 - c.slipPath.value * (slip < 0 ? -slip : slip);
    const arterialInfrared = infraredDeoxy + (infraredOxy - infraredDeoxy) * saturation;
    const arterialRed = redDeoxy + (redOxy - redDeoxy) * saturation;
    const infraredLeft = lightLeft(path * (arterialInfrared * arterialPath + this.venousInfrared * venous));
    const redLeft = lightLeft(path * (arterialRed * arterialPath + this.venousRed * venous));

    // The swelling digit also narrows the gap beside it, by geometry and so alike in both colours.
    const pulse = c.besidePulse.value * arterialInfrared * (arterialPath - c.restingArterialPath.value);
    const beside = c.besideLevel.value * shift * (1 - Math.min(pulse, 0.5));
    const lit = c.restingLevel.value * on * (1 + slip) * movement.factor;
    const throughInfrared = ((1 - shift) * infraredLeft) / restingInfrared + beside;
    const throughRed = ((1 - shift) * redLeft) / restingRed + beside;

    const open = 1 + (c.roomOpen.value - 1) * (1 - on * (1 - shift));
    const room = c.restingLevel.value * open;
    const ripple = 0.01 * controls.mains;
    const infrared =
      lit * (1 - c.varnishInfrared.value * controls.varnish) * throughInfrared +
      room * (controls.ambient + ripple * lamps.infrared);
    const red = lit * (1 - controls.varnish) * throughRed + room * (controls.ambient + ripple * lamps.red);

    if (controls.contact === "unplugged") {
      this.infraredReceiver.nothing();
      this.redReceiver.nothing();
    } else {
      const current = controls.photocurrent * this.placeLight;
      this.infraredReceiver.next(Math.max(infrared, 0), current);
      this.redReceiver.next(Math.max(red, 0), current);
    }
    this.infrared = this.infraredReceiver.value;
    this.red = this.redReceiver.value;
    state.contact = controls.contact;
    state.shift = shift;
    state.clipped = this.infraredReceiver.clipped || this.redReceiver.clipped;
    state.movement = movement.factor - 1;
  }

  /** The probe goes where the controls say, within a few times `moveTime`. */
  private settle(): void {
    const { controls, state, move } = this;
    const onTarget = controls.contact === "off" ? 0 : 1;
    const slipLeft = controls.slip - this.slip;
    const shiftLeft = controls.shift - this.shift;
    const onLeft = onTarget - this.on;
    const most = Math.max(Math.abs(slipLeft), Math.abs(shiftLeft), Math.abs(onLeft));
    state.slipping = most > still;
    if (most > still) {
      this.slip += move * slipLeft;
      this.shift += move * shiftLeft;
      this.on += move * onLeft;
    } else {
      this.slip = controls.slip;
      this.shift = controls.shift;
      this.on = onTarget;
    }
  }
}

/**
 * A probe on a limb.
 * @throws {PracticeError} `bad-rate` unless 25 to 1000 samples/s, `out-of-range` for bits outside 8 to 24, mains
 *   other than 50 or 60 Hz or a probe number that is no whole number from 0 to 1000, `bad-seed`
 */
export function createProbe(options: ProbeOptions): Probe {
  const { seed, rate, probe = 0, bits = 18, mainsHz = 50 } = options;
  if (!(rate >= 25 && rate <= 1000)) {
    throw new PracticeError("bad-rate", `${rate} samples/s is not within 25 to 1000`);
  }
  if (!(Number.isInteger(bits) && bits >= 8 && bits <= 24)) {
    throw new PracticeError("out-of-range", `${bits} bits is no whole number from 8 to 24`);
  }
  if (mainsHz !== 50 && mainsHz !== 60) {
    throw new PracticeError("out-of-range", `mains of ${mainsHz} Hz is neither 50 nor 60`);
  }
  if (!(Number.isInteger(probe) && probe >= 0 && probe <= 1000)) {
    throw new PracticeError("out-of-range", `probe ${probe} is no whole number from 0 to 1000`);
  }
  if (!(Number.isInteger(seed) && seed >= 0 && seed <= 0xffffffff)) {
    throw new PracticeError("bad-seed", `${seed} is no whole number from 0 to 4294967295`);
  }
  return new Probe(options);
}
