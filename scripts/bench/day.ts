/** A synthetic channel-day for timing only; no accuracy is claimed from it. */

/** Deterministic generator, 32-bit xorshift: the same day on every machine. */
function uniform(seed: number): () => number {
  let state = seed | 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

/**
 * Two-wave pulses at about 75/min with 4 % interval scatter, slow level swings and sensor noise.
 *
 * @param count samples at `rate`/s
 * @returns arbitrary units, systole up
 */
export function pulseDay(count: number, rate: number, noise = 0.02, seed = 7): Float64Array {
  const random = uniform(seed);
  const gauss = () => random() + random() + random() + random() - 2;
  const values = new Float64Array(count);
  let phase = 0;
  let interval = 0.8;
  for (let i = 0; i < count; i++) {
    phase += 1 / (rate * interval);
    if (phase >= 1) {
      phase -= 1;
      interval = 0.8 * (1 + 0.07 * gauss());
    }
    const systole = Math.exp(-(((phase - 0.18) / 0.075) ** 2));
    const second = 0.35 * Math.exp(-(((phase - 0.46) / 0.11) ** 2));
    values[i] = systole + second + 0.3 * Math.sin(i / (rate * 2.1)) + noise * gauss();
  }
  return values;
}

/** The same length without any pulse: white noise on a slow wander. */
export function noiseDay(count: number, seed = 11): Float64Array {
  const random = uniform(seed);
  const values = new Float64Array(count);
  let slow = 0;
  for (let i = 0; i < count; i++) {
    slow += 0.01 * (random() - 0.5) - 0.0001 * slow;
    values[i] = slow + random() - 0.5;
  }
  return values;
}
