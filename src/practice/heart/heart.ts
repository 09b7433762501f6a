/**
 * One heart and the root of its arteries: rhythm, ejection and a windkessel, in steps of `dt`. Knows
 * nothing of limbs; a limb takes `now` after each step.
 */
import type { HeartControls } from "../controls/heart-controls.js";
import { PracticeError } from "../errors.js";
import type { HeartBeat, HeartNow } from "../heart-now.js";
import { exp } from "../numbers/exponential.js";
import { constants } from "./constants.js";
import { ejectionTime, preEjection, volumeGone } from "./ejection.js";
import { PressureFit } from "./pressure-fit.js";
import { Rhythm } from "./rhythm.js";
import { SlowWaves } from "./waves.js";

/** Streams of the seed that the heart draws from: no other part may. */
export const heartStreams = { rhythm: 9001, waves: 9002 } as const;

export interface HeartSettings {
  /** A whole number from 0 to 2^32 − 1. */
  readonly seed: number;
  /** Seconds a step, above 0 and up to 0.004. */
  readonly dt: number;
  /** Read at each step; change it at will. */
  readonly controls: HeartControls;
  /** Told of each beat at its R wave, in order; `ejection` may lie a little ahead. */
  readonly onBeat?: (beat: HeartBeat) => void;
}

const largestStep = 0.004;
const slowTick = 0.02;
const longAgo = 1000;
const impedance = constants.characteristicResistance.value;

/** What the controls' pressures lead to in an even train of usual beats. */
export interface UsualBeat {
  /** mL. */
  readonly stroke: number;
  /** mmHg·s/mL. */
  readonly resistance: number;
  /** mmHg at the upper arm. */
  readonly systolic: number;
  readonly diastolic: number;
}

export class Heart {
  readonly now: HeartNow;
  private readonly controls: HeartControls;
  private readonly onBeat: ((beat: HeartBeat) => void) | undefined;
  private readonly dt: number;
  private readonly waves: SlowWaves;
  private readonly rhythm: Rhythm;
  private readonly fit: PressureFit;
  private readonly slowEvery: number;
  private steps = 0;
  private slowLeft = 0;
  private toneSlope = 0;
  private toneEnd: number;
  private venousOffset = 0;
  private venousSlope = 0;
  private venousEnd: number;
  private windkessel: number;
  private resistance: number;
  private compliance: number;
  private nextR: number;
  private waiting = false;
  private waitingEjection = 0;
  private waitingLasts = 0;
  private waitingVolume = 0;
  private ejecting = false;
  private ejection = -longAgo;
  private lasts = 1;
  private volume = 0;
  private gone = 0;
  private pumped = false;

  /** @throws {PracticeError} `bad-seed`, `bad-rate`, `impossible-pressures` */
  constructor(settings: HeartSettings) {
    const { seed, dt, controls } = settings;
    if (!(Number.isInteger(seed) && seed >= 0 && seed <= 0xffffffff)) {
      throw new PracticeError("bad-seed", `${seed} is not a whole number from 0 to 4294967295`);
    }
    if (!(dt > 0 && dt <= largestStep)) {
      throw new PracticeError("bad-rate", `a step of ${dt} s is not within 0 to ${largestStep} s`);
    }
    checkPressures(controls);
    this.controls = controls;
    this.onBeat = settings.onBeat;
    this.dt = dt;
    this.slowEvery = Math.max(1, Math.round(slowTick / dt));
    this.waves = new SlowWaves(seed, heartStreams.waves, this.slowEvery * dt);
    this.rhythm = new Rhythm(seed, heartStreams.rhythm, this.waves);
    this.fit = new PressureFit(dt);
    this.fit.follow(controls, 40);
    this.resistance = this.fit.resistance;
    this.compliance = this.fit.compliance;
    this.nextR = this.rhythm.start(controls);
    this.windkessel = this.startPressure();
    this.toneEnd = this.waves.tone(controls.breathing);
    this.venousEnd = this.venousNow();
    this.venousOffset = this.venousEnd;
    this.now = {
      time: 0,
      aortic: this.windkessel,
      centralVenous: Math.max(0, controls.centralVenous + this.venousOffset),
      sinceEjection: longAgo,
      toneWave: this.toneEnd,
      saturation: controls.saturation / 100,
    };
  }

  /** The usual beat that the pressures in force lead to. */
  get usualBeat(): UsualBeat {
    const { stroke, resistance, systolic, diastolic } = this.fit;
    return { stroke, resistance, systolic, diastolic };
  }

  /** Moves on by one step. */
  step(): void {
    const { now, controls, dt } = this;
    if (this.slowLeft === 0) this.slow();
    this.slowLeft--;
    this.steps++;
    const time = this.steps * dt;
    now.time = time;
    this.venousOffset += this.venousSlope;
    now.toneWave += this.toneSlope;
    now.centralVenous = Math.max(0, controls.centralVenous + this.venousOffset);
    now.saturation = controls.saturation / 100;
    if (controls.rhythm === "steady-flow") this.pumped = true;
    else if (this.pumped) this.backFromPump(time);
    if (time >= this.nextR && !this.pumped) this.beat();
    if (this.waiting && time > this.waitingEjection) this.open();

    let flow = 0;
    if (this.ejecting) {
      const gone = volumeGone(time - this.ejection, this.lasts);
      flow = (this.volume * (gone - this.gone)) / dt;
      this.gone = gone;
      this.ejecting = gone !== 1 || time - this.ejection < this.lasts;
    }
    if (this.pumped) {
      const rate = dt / (this.resistance * this.compliance);
      const held = this.windkessel + rate * steadyPressure(controls) + (dt / this.compliance) * flow;
      this.windkessel = held / (1 + rate);
    } else {
      const gain = dt / this.compliance;
      const filled = this.windkessel + gain * (flow + now.centralVenous / this.resistance);
      this.windkessel = filled / (1 + gain / this.resistance);
    }
    now.aortic = this.windkessel + impedance * flow;
    now.sinceEjection = Math.min(longAgo, time - this.ejection);
  }

  /** Such that the first beat finds what an even train would have left it. */
  private startPressure(): number {
    const { controls, fit } = this;
    if (controls.rhythm === "steady-flow") return steadyPressure(controls);
    const fall = exp(-this.nextR / (this.resistance * this.compliance));
    return controls.centralVenous + (fit.atR - controls.centralVenous) / fall;
  }

  private slow(): void {
    this.slowLeft = this.slowEvery;
    this.waves.advance(this.controls);
    // Straight lines from where it is to where it will be, so that nothing jumps every tick.
    this.toneEnd = this.waves.tone(this.controls.breathing);
    this.toneSlope = (this.toneEnd - this.now.toneWave) / this.slowEvery;
    this.venousEnd = this.venousNow();
    this.venousSlope = (this.venousEnd - this.venousOffset) / this.slowEvery;
  }

  private venousNow(): number {
    return -constants.breathVenous.value * this.controls.breathing * this.waves.breath;
  }

  private beat(): void {
    const { rhythm, controls, fit } = this;
    // A ramp is followed by one round a beat; a jump takes more at once.
    fit.follow(controls, 1);
    if (fit.error > 1) fit.follow(controls, 6);
    this.resistance = fit.resistance;
    this.compliance = fit.compliance;
    rhythm.next(controls);
    const r = this.nextR;
    this.nextR = r + rhythm.interval;
    const { strokeRatio, kind } = rhythm;
    const ejection = r + preEjection(strokeRatio);
    const lasts = ejectionTime(controls.rate, strokeRatio);
    this.waiting = strokeRatio > 0;
    this.waitingEjection = ejection;
    this.waitingLasts = lasts;
    this.waitingVolume = strokeRatio * fit.stroke;
    this.onBeat?.({ r, ejection, ejectionTime: lasts, strokeRatio, kind });
  }

  private open(): void {
    this.waiting = false;
    this.ejecting = true;
    this.ejection = this.waitingEjection;
    this.lasts = this.waitingLasts;
    this.volume = this.waitingVolume;
    this.gone = 0;
  }

  private backFromPump(time: number): void {
    this.pumped = false;
    this.nextR = Math.max(this.nextR, time);
  }
}

/** Mean pressure of a pump that is asked for a systolic and a diastolic. */
function steadyPressure(controls: HeartControls): number {
  return controls.diastolic + Math.max(0, controls.systolic - controls.diastolic) / 3;
}

/**
 * Refuses pressures that no beating heart can have. While running, a diastolic too near the systolic is
 * taken as lowered instead.
 * @throws {PracticeError} `impossible-pressures`
 */
export function checkPressures(controls: HeartControls): void {
  const least = constants.leastPulsePressure.value;
  if (controls.rhythm !== "steady-flow" && !(controls.systolic - controls.diastolic >= least)) {
    throw new PracticeError(
      "impossible-pressures",
      `systolic ${controls.systolic} and diastolic ${controls.diastolic} mmHg are less than ${least} mmHg apart`,
    );
  }
}

/** @throws {PracticeError} `bad-seed`, `bad-rate`, `impossible-pressures` */
export function createHeart(settings: HeartSettings): Heart {
  return new Heart(settings);
}
