/**
 * What a bedside oximeter would show from the same light, honest in its means and as easily fooled: it holds
 * numbers over a dead trace, fills the screen with noise, and counts regular movement as pulse. Its screen is a
 * teaching aid and never the engine's answer. Imitates no device; where devices differ it is a setting.
 */
import { PracticeError } from "../errors.js";
import { textbookSaturation } from "../light/beat-light.js";
import { BeatAverages } from "./beat-averages.js";
import { BeatPicker } from "./beat-picker.js";
import { displayConstants as c } from "./constants.js";
import { PulseBand } from "./pulse-band.js";
import { ScreenGain } from "./screen-gain.js";

export const displayMessages = ["no-probe", "searching", "ok", "held", "pulse-lost-notice"] as const;
/**
 * - `no-probe`: too little or too much light
 * - `searching`: light, but no number earned yet or none left
 * - `ok`: numbers earned within the last beats
 * - `held`: the numbers on the screen are old
 * - `pulse-lost-notice`: no pulse found for so long that the device says so
 */
export type DisplayMessage = (typeof displayMessages)[number];

export interface DisplayOptions {
  /** Samples per second, 25 to 1000. */
  readonly rate: number;
  /** Beats averaged, 4 to 16; 8 unless given. */
  readonly averageBeats?: number;
  /** Seconds for which numbers are held, 0 to 60; 10 unless given. */
  readonly holdSeconds?: number;
  /** Whether noise stays small on the screen; it does not unless given. */
  readonly floor?: boolean;
  /** Step of the perfusion index shown, %; 0.1 unless given. */
  readonly piResolution?: 0.01 | 0.1 | 1;
}

/** Share of each beat in the usual rise. */
const usualShare = 0.1;

export class Display {
  /** 0 at the bottom of the screen to 1 at its top. */
  trace = 0.5;
  /** What the screen shows; `null` is dashes. %, /min, %. SpO₂ by the textbook line, uncalibrated. */
  spo2: number | null = null;
  rate: number | null = null;
  pi: number | null = null;
  /** Seconds since these numbers were earned by a beat; Infinity before the first. A held number looks the same. */
  age = Number.POSITIVE_INFINITY;
  /** True at the one sample at which a beat is called. */
  beep = false;
  /** Of that tone, Hz: falls with SpO₂. */
  pitch: number = lowestPitch;
  message: DisplayMessage = "searching";
  /** Whether the device has been told that a cuff on this limb is being inflated: it then keeps quiet longer. */
  cuffInflating = false;
  private readonly infrared: PulseBand;
  private readonly red: PulseBand;
  private readonly picker: BeatPicker;
  private readonly averages: BeatAverages;
  private readonly gain: ScreenGain;
  private readonly dt: number;
  private readonly hold: number;
  private readonly stepsPerIndex: number;
  private outside = 0;
  /** Rise of the beats that earned numbers, slowly averaged so that movement does not pass for it, %. */
  private usualRise = Number.POSITIVE_INFINITY;
  private infraredLow = Number.POSITIVE_INFINITY;
  private infraredHigh = Number.NEGATIVE_INFINITY;
  private redLow = Number.POSITIVE_INFINITY;
  private redHigh = Number.NEGATIVE_INFINITY;

  constructor(options: DisplayOptions) {
    const { rate, averageBeats = 8, holdSeconds = 10, floor = false, piResolution = 0.1 } = options;
    this.infrared = new PulseBand(rate);
    this.red = new PulseBand(rate);
    this.picker = new BeatPicker(rate);
    this.averages = new BeatAverages(averageBeats);
    this.gain = new ScreenGain(rate, floor);
    this.dt = 1 / rate;
    this.hold = holdSeconds;
    this.stepsPerIndex = Math.round(1 / piResolution);
  }

  /** One sample of stored light, share of full scale, 0 to 1. */
  push(infraredLight: number, redLight: number): void {
    const { infrared, red, picker, gain } = this;
    const inside = infraredLight > c.darkLevel.value && infraredLight < c.brightLevel.value;
    this.outside = inside ? 0 : this.outside + this.dt;
    if (inside && this.message === "no-probe") this.begin();
    infrared.next(infraredLight);
    red.next(redLight);
    gain.next(infrared.pulse);
    picker.next(infrared.pulse);
    this.trace = gain.trace;
    this.age += this.dt;
    this.beep = false;
    this.infraredLow = Math.min(this.infraredLow, infrared.pulse);
    this.infraredHigh = Math.max(this.infraredHigh, infrared.pulse);
    this.redLow = Math.min(this.redLow, red.pulse);
    this.redHigh = Math.max(this.redHigh, red.pulse);
    if (this.outside >= c.probeSeconds.value) {
      this.blank();
      this.averages.clear();
      this.age = Number.POSITIVE_INFINITY;
      this.message = "no-probe";
      return;
    }
    if (picker.beat) this.takeBeat();
    if (this.age > this.hold) this.blank();
    this.choose();
  }

  /** A probe has come onto a digit: what was seen before tells nothing of it. */
  private begin(): void {
    this.infrared.reset();
    this.red.reset();
    this.gain.reset();
    this.picker.reset();
  }

  private takeBeat(): void {
    const { picker, averages } = this;
    const index = this.infraredHigh - this.infraredLow;
    averages.add(picker.interval, picker.rise, index, (this.redHigh - this.redLow) / index, picker.roughness);
    if (averages.interval > 0) picker.expect(averages.rise, averages.interval);
    this.infraredLow = Number.POSITIVE_INFINITY;
    this.infraredHigh = Number.NEGATIVE_INFINITY;
    this.redLow = Number.POSITIVE_INFINITY;
    this.redHigh = Number.NEGATIVE_INFINITY;
    this.beep = true;
    if (averages.earned) this.show();
    this.pitch = pitchOf(this.spo2);
  }

  private show(): void {
    const { averages, stepsPerIndex } = this;
    const index = Math.min(c.mostIndex.value, averages.index);
    this.age = 0;
    if (this.usualRise < Number.POSITIVE_INFINITY) {
      this.usualRise += usualShare * (averages.rise - this.usualRise);
    } else this.usualRise = averages.rise;
    this.rate = Math.round(60 / averages.interval);
    this.spo2 = Math.max(0, Math.min(100, Math.round(textbookSaturation(averages.ratio))));
    this.pi = Math.round(index * stepsPerIndex) / stepsPerIndex;
  }

  private blank(): void {
    if (this.rate === null) return;
    this.spo2 = null;
    this.rate = null;
    this.pi = null;
  }

  private choose(): void {
    if (this.age > this.patience() && this.age < Number.POSITIVE_INFINITY) this.message = "pulse-lost-notice";
    else if (this.rate === null) this.message = "searching";
    else this.message = this.age > c.heldAfter.value ? "held" : "ok";
  }

  /** Seconds of silence before the notice. */
  private patience(): number {
    if (this.cuffInflating) return c.cuffNotice.value;
    const moving = this.gain.height > c.movingHeight.value * this.usualRise;
    return moving ? c.movingNotice.value : c.stillNotice.value;
  }
}

/** Common practice, no source: the tone falls with saturation. Steps and ends are our own. */
const highestPitch = 880;
const lowestPitch = 320;
const pitchPerPercent = 14;

function pitchOf(spo2: number | null): number {
  if (spo2 === null) return lowestPitch;
  return Math.max(lowestPitch, highestPitch - pitchPerPercent * (100 - spo2));
}

/**
 * A display of the bedside kind.
 * @throws {PracticeError} `bad-rate` unless 25 to 1000 samples/s; `out-of-range` for anything else outside the
 *   ranges of `DisplayOptions`
 */
export function createDisplay(options: DisplayOptions): Display {
  const { rate, averageBeats = 8, holdSeconds = 10, piResolution = 0.1 } = options;
  if (!(rate >= 25 && rate <= 1000)) {
    throw new PracticeError("bad-rate", `${rate} samples/s is not within 25 to 1000`);
  }
  if (!(Number.isInteger(averageBeats) && averageBeats >= 4 && averageBeats <= 16)) {
    throw new PracticeError("out-of-range", `${averageBeats} beats is no whole number from 4 to 16`);
  }
  if (!(holdSeconds >= 0 && holdSeconds <= 60)) {
    throw new PracticeError("out-of-range", `a hold of ${holdSeconds} s is not within 0 to 60`);
  }
  if (![0.01, 0.1, 1].includes(piResolution)) {
    throw new PracticeError("out-of-range", `steps of ${piResolution} % are none of 0.01, 0.1, 1`);
  }
  return new Display(options);
}
