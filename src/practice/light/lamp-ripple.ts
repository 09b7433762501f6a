/**
 * Lamps on the mains flicker at twice its frequency. The sample clock folds that to a slow line: 100 Hz sampled
 * 125 times a second is seen at 25 Hz. The mains wanders a little, and the line with it.
 */
import { cos, sin } from "../numbers/circle.js";
import type { Random } from "../numbers/random.js";
import { lightConstants } from "./constants.js";

/** Seconds between two looks at the wandering mains. */
const lookEvery = 1;
/** The wandering forgets itself in about this many looks. */
const forget = 30;

export class LampRipple {
  /** The ripple now at the infrared and the red sample, ±1. */
  infrared = 0;
  red = 0;
  private x: number;
  private y: number;
  private turnCos = 1;
  private turnSin = 0;
  private readonly redCos: number;
  private readonly redSin: number;
  private wander = 0;
  private left = 0;
  private readonly every: number;
  private readonly random: Random;
  private readonly turns: number;

  /** @param mains Hz @param rate samples per second */
  constructor(mains: number, rate: number, random: Random) {
    this.random = random;
    const start = 2 * Math.PI * random.uniform();
    this.x = cos(start);
    this.y = sin(start);
    this.turns = (2 * mains) / rate;
    this.every = Math.max(1, Math.round(lookEvery * rate));
    const lag = 2 * Math.PI * 2 * mains * lightConstants.redDelay.value;
    this.redCos = cos(lag);
    this.redSin = sin(lag);
  }

  next(): void {
    if (this.left === 0) this.look();
    this.left--;
    const { x, y } = this;
    this.x = x * this.turnCos - y * this.turnSin;
    this.y = x * this.turnSin + y * this.turnCos;
    this.infrared = this.y;
    this.red = this.x * this.redSin + this.y * this.redCos;
  }

  /** Takes the mains' frequency anew and brings the turning pair back to length 1. */
  private look(): void {
    this.left = this.every;
    const most = lightConstants.lampWander.value;
    const moved = this.wander * (1 - 1 / forget) + (most * (2 * this.random.uniform() - 1)) / 3;
    this.wander = Math.max(-most, Math.min(most, moved));
    const turns = this.turns * (1 + this.wander);
    const angle = 2 * Math.PI * (turns - Math.floor(turns));
    this.turnCos = cos(angle);
    this.turnSin = sin(angle);
    const length = Math.sqrt(this.x * this.x + this.y * this.y);
    this.x /= length;
    this.y /= length;
  }
}
