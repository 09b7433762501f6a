/** Seeded noise of the kinds a pleth meets without a pulse. For tests and the accuracy run only. */

/** Uniform numbers in [0, 1): a 32-bit mixing generator, the same on every machine. */
export type Random = () => number;

export function createRandom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return ((z ^ (z >>> 16)) >>> 0) / 2 ** 32;
  };
}

/** Standard normal, by the polar method. */
export function normal(random: Random): number {
  for (;;) {
    const a = 2 * random() - 1;
    const b = 2 * random() - 1;
    const r = a * a + b * b;
    if (r > 0 && r < 1) return a * Math.sqrt((-2 * Math.log(r)) / r);
  }
}

export const noiseKinds = ["white", "pink", "brown", "blue", "breathing", "line", "movement"] as const;
export type NoiseKind = (typeof noiseKinds)[number];

/** Pole and zero frequencies in Hz, an octave and a half apart: their cascade falls 3 dB per octave from 0.03 to 30 Hz. */
const pinkCorners = [0.02, 0.06, 0.18, 0.54, 1.62, 4.86, 14.6];

/** `count` samples at `rate`, roughly unit spread within the pulse band; each call is another draw. */
export function makeNoise(kind: NoiseKind, count: number, rate: number, random: Random): Float64Array {
  const out = new Float64Array(count);
  const white = () => normal(random);
  switch (kind) {
    case "white":
      for (let n = 0; n < count; n++) out[n] = white();
      return out;
    case "blue": {
      let last = white();
      for (let n = 0; n < count; n++) {
        const now = white();
        out[n] = now - last;
        last = now;
      }
      return out;
    }
    case "brown": {
      let level = 0;
      for (let n = 0; n < count; n++) {
        level += white() / Math.sqrt(rate);
        out[n] = level;
      }
      return out;
    }
    case "pink": {
      const states = pinkCorners.map((corner) => ({
        keep: Math.exp((-2 * Math.PI * corner) / rate),
        value: normal(random),
      }));
      for (let n = 0; n < count; n++) {
        let sum = 0;
        for (const state of states) {
          state.value = state.keep * state.value + Math.sqrt(1 - state.keep ** 2) * white();
          sum += state.value;
        }
        out[n] = sum + 0.2 * white();
      }
      return out;
    }
    case "breathing": {
      const f = 0.15 + 0.35 * random();
      const start = 2 * Math.PI * random();
      let drift = 0;
      for (let n = 0; n < count; n++) {
        drift += (0.15 * white()) / Math.sqrt(rate);
        const phase = start + (2 * Math.PI * f * n) / rate + drift;
        out[n] =
          5 * Math.cos(phase) + 1.5 * Math.cos(2 * phase + 1) + 0.5 * Math.cos(3 * phase) + 0.3 * white();
      }
      return out;
    }
    case "line": {
      const f = 0.5 + 3.5 * random();
      const start = 2 * Math.PI * random();
      for (let n = 0; n < count; n++) out[n] = 2 * Math.cos(start + (2 * Math.PI * f * n) / rate) + white();
      return out;
    }
    case "movement": {
      // Bursts of a damped swing at random times, as when a limb is shifted or shaken.
      let wait = 0;
      let x = 0;
      let v = 0;
      let swing = 2 * Math.PI * (0.7 + 2.5 * random());
      for (let n = 0; n < count; n++) {
        wait -= 1 / rate;
        if (wait <= 0) {
          wait = -Math.log(1 - random()) * 0.8;
          swing = 2 * Math.PI * (0.7 + 2.5 * random());
          v += 20 * white();
        }
        v += (-swing * swing * x - 0.5 * swing * v) / rate;
        x += v / rate;
        out[n] = x + 0.3 * white();
      }
      return out;
    }
  }
}
