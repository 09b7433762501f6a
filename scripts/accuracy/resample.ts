/** Brings a recording to another sampling rate, so that one set of marks can score every rate. */

const LOBES = 12;

/**
 * Interpolates with a Hann-windowed sinc whose pass band ends below half of the lower rate.
 * Missing samples (NaN) are left out of the weights; where the nearest one is missing, so is the result.
 */
export function resample(values: Float64Array, from: number, to: number): Float64Array {
  const scale = Math.min(1, (0.9 * to) / from);
  const half = LOBES / scale;
  const out = new Float64Array(Math.floor(((values.length - 1) * to) / from) + 1);
  for (let k = 0; k < out.length; k++) {
    const at = (k * from) / to;
    const nearest = values[Math.min(values.length - 1, Math.round(at))]!;
    let sum = 0;
    let weights = 0;
    for (
      let i = Math.max(0, Math.ceil(at - half));
      i <= Math.min(values.length - 1, Math.floor(at + half));
      i++
    ) {
      const value = values[i]!;
      if (Number.isNaN(value)) continue;
      const distance = (i - at) * scale;
      const sinc = distance === 0 ? 1 : Math.sin(Math.PI * distance) / (Math.PI * distance);
      const weight = sinc * (0.5 + 0.5 * Math.cos((Math.PI * (i - at)) / half));
      // A constant continuation beyond gaps and ends: work on differences to the nearest sample.
      sum += weight * (value - nearest);
      weights += weight;
    }
    out[k] = Number.isNaN(nearest) ? Number.NaN : nearest + (weights === 0 ? 0 : sum * scale);
  }
  return out;
}
