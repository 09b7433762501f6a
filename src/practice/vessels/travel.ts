/** Travel of the pulse wave from the aorta to the limb: a pure delay that may change while it runs. */
export class Travel {
  private readonly ring: Float64Array;
  private readonly mask: number;
  private at = 0;
  /** Pressure that goes in, mmHg, and seconds until it comes out; set before each step. */
  input: number;
  delay = 0;
  /** Pressure that comes out. */
  output: number;

  /** @param longest the largest delay that will be asked for, s */
  constructor(
    longest: number,
    private readonly dt: number,
    pressure: number,
  ) {
    let size = 4;
    while (size < longest / dt + 3) size *= 2;
    this.ring = new Float64Array(size).fill(pressure);
    this.mask = size - 1;
    this.input = pressure;
    this.output = pressure;
  }

  step(): void {
    const { ring, mask } = this;
    const at = (this.at + 1) & mask;
    this.at = at;
    ring[at] = this.input;
    const back = Math.min(Math.max(this.delay / this.dt, 0), mask - 1);
    const whole = Math.floor(back);
    const after = ring[(at - whole) & mask] as number;
    const before = ring[(at - whole - 1) & mask] as number;
    this.output = after + (back - whole) * (before - after);
  }
}
