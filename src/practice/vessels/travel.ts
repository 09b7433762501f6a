/** Travel of the pulse wave from the aorta to the limb: a pure delay that may change while it runs. */
export class Travel {
  private readonly ring: Float64Array;
  private readonly mask: number;
  private at = 0;

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
  }

  /** Takes the pressure at the root of the aorta now, gives the one `delay` seconds ago. */
  next(pressure: number, delay: number): number {
    this.at = (this.at + 1) & this.mask;
    this.ring[this.at] = pressure;
    const back = Math.min(Math.max(delay / this.dt, 0), this.mask - 1);
    const whole = Math.floor(back);
    const late = this.ring[(this.at - whole) & this.mask] as number;
    const later = this.ring[(this.at - whole - 1) & this.mask] as number;
    return late + (back - whole) * (later - late);
  }
}
