/** From stored whole numbers to physical values. */

/** physical = (stored - from) * gain + offset */
export interface Scaling {
  readonly from: number;
  readonly gain: number;
  readonly offset: number;
  /** Values outside this range should not occur in the file. */
  readonly lowest: number;
  readonly highest: number;
}

export interface Ranges {
  readonly digitalMinimum: number | null;
  readonly digitalMaximum: number | null;
  readonly physicalMinimum: number | null;
  readonly physicalMaximum: number | null;
}

/**
 * The straight line through (digital minimum, physical minimum) and (digital maximum, physical maximum).
 * A digital range the wrong way round still names the same line. A physical range the wrong way round
 * is an inverted signal and is allowed.
 *
 * @returns `null` where no line is given: a range is missing, empty or not finite
 */
export function scalingOf(ranges: Ranges): Scaling | null {
  const { digitalMinimum: d0, digitalMaximum: d1, physicalMinimum: p0, physicalMaximum: p1 } = ranges;
  if (d0 === null || d1 === null || p0 === null || p1 === null || d0 === d1 || p0 === p1) return null;
  const gain = (p1 - p0) / (d1 - d0);
  if (!Number.isFinite(gain) || gain === 0) return null;
  return { from: d0, gain, offset: p0, lowest: Math.min(d0, d1), highest: Math.max(d0, d1) };
}

/** Stored numbers as they are, for a signal without a usable range. */
export const unscaled: Scaling = {
  from: 0,
  gain: 1,
  offset: 0,
  lowest: Number.NEGATIVE_INFINITY,
  highest: Number.POSITIVE_INFINITY,
};

/**
 * Decodes little-endian two's complement numbers of `width` bytes into `out` from `at`.
 *
 * @param width 2 (EDF) or 3 (BDF)
 * @returns how many lay outside the digital range
 */
export function decodeSamples(
  bytes: Uint8Array,
  width: 2 | 3,
  scaling: Scaling,
  out: Float64Array,
  at: number,
): number {
  const { from, gain, offset, lowest, highest } = scaling;
  const count = Math.floor(bytes.length / width);
  const shift = width === 2 ? 16 : 8;
  let outside = 0;
  for (let n = 0, b = 0; n < count; n++, b += width) {
    const low = (bytes[b] as number) | ((bytes[b + 1] as number) << 8);
    const raw = width === 2 ? low : low | ((bytes[b + 2] as number) << 16);
    const stored = (raw << shift) >> shift;
    if (stored < lowest || stored > highest) outside += 1;
    out[at + n] = (stored - from) * gain + offset;
  }
  return outside;
}
