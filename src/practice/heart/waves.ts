/** Breathing, the slow wave near 0.1 Hz and the wandering of vessel tone: what moves between beats. */
import type { HeartControls } from "../controls/heart-controls.js";
import { sin } from "../numbers/circle.js";
import { exp } from "../numbers/exponential.js";
import { createRandom, type Random } from "../numbers/random.js";
import { constants } from "./constants.js";

const tau = 2 * Math.PI;
/** Noise is drawn this often, s; between draws everything moves evenly. */
const drawEvery = 0.25;

export class SlowWaves {
  /** Breathing, −1 to 1, positive breathing in; without its depth. */
  breath = 0;
  /** The slow wave, −1 to 1. */
  slow = 0;
  /** Wandering of the tone. */
  walk = 0;

  private readonly random: Random;
  private breathPhase: number;
  private slowPhase: number;
  private breathDrift = 0;
  private slowDrift = 0;
  private walkSlope = 0;
  private ticks = 0;
  private readonly ticksPerDraw: number;
  private readonly keep: number;
  private readonly push: number;
  private readonly wander: number;

  /**
   * @param tick seconds between calls of `advance`
   * @param stream stream of the seed that is theirs alone
   */
  constructor(
    seed: number,
    stream: number,
    private readonly tick: number,
  ) {
    this.random = createRandom(seed, stream);
    this.breathPhase = tau * this.random.uniform();
    this.slowPhase = tau * this.random.uniform();
    this.walk = constants.walkTone.value * this.random.normal();
    this.ticksPerDraw = Math.max(1, Math.round(drawEvery / tick));
    const between = this.ticksPerDraw * tick;
    this.keep = exp(-between / constants.walkTime.value);
    this.push = constants.walkTone.value * Math.sqrt(1 - this.keep * this.keep);
    this.wander = constants.waveWander.value / Math.sqrt(between);
    this.breath = sin(this.breathPhase);
    this.slow = sin(this.slowPhase);
  }

  /** Moves on by one tick. */
  advance(controls: HeartControls): void {
    if (this.ticks === 0) this.draw();
    this.ticks = this.ticks + 1 === this.ticksPerDraw ? 0 : this.ticks + 1;
    this.breathPhase = wrap(
      this.breathPhase + this.tick * this.rateOf(controls.breaths / 60, this.breathDrift),
    );
    this.slowPhase = wrap(
      this.slowPhase + this.tick * this.rateOf(constants.lowFrequency.value, this.slowDrift),
    );
    this.walk += this.walkSlope * this.tick;
    this.breath = sin(this.breathPhase);
    this.slow = sin(this.slowPhase);
  }

  /** Added to every site's vessel tone now. */
  tone(depth: number): number {
    return (
      constants.breathTone.value * depth * this.breath + constants.slowTone.value * this.slow + this.walk
    );
  }

  private draw(): void {
    this.breathDrift = this.wander * this.random.normal();
    this.slowDrift = this.wander * this.random.normal();
    const next = this.keep * this.walk + this.push * this.random.normal();
    this.walkSlope = (next - this.walk) / (this.ticksPerDraw * this.tick);
  }

  /** Radians a second: never backwards, so that no breath is taken twice. */
  private rateOf(frequency: number, drift: number): number {
    const even = tau * frequency;
    return Math.max(0.2 * even, even + drift);
  }
}

function wrap(phase: number): number {
  return phase >= tau ? phase - tau : phase;
}
