/** A short name for many doubles, by their bits: two runs that differ in one last place get different names. */

const prime = 0x01000193;

export class Fingerprint {
  private readonly double = new Float64Array(1);
  private readonly bytes = new Uint8Array(this.double.buffer);
  private first = 0x811c9dc5;
  private second = 0x050c5d1f;

  /** Takes values in; every NaN counts as the same, since its payload is the engine's own business. */
  add(...values: readonly number[]): this {
    for (const value of values) this.addOne(value);
    return this;
  }

  addAll(values: Iterable<number>): this {
    for (const value of values) this.addOne(value);
    return this;
  }

  private addOne(value: number): void {
    this.double[0] = Number.isNaN(value) ? Number.NaN : value;
    const last = this.bytes.length - 1;
    // Twice over and in both directions: 64 bits of FNV-1a.
    for (let n = 0; n <= last; n++) {
      this.first = Math.imul(this.first ^ (this.bytes[n] as number), prime);
      this.second = Math.imul(this.second ^ (this.bytes[last - n] as number), prime);
    }
  }

  /** Sixteen hexadecimal digits. */
  get text(): string {
    return [this.first, this.second].map((word) => (word >>> 0).toString(16).padStart(8, "0")).join("");
  }
}
