/**
 * Where exactly on the inner trace a wave has its top, foot and notch. Times are in inner
 * samples, to a fraction. The trace is a ring whose length is a power of two.
 */

/** A top so flat that only its middle is meaningful: share of the rise within which it counts as level. */
const FLAT = 0.002;
/** Rise from the notch to the second wave's top, as a share of the amplitude. */
const NOTCH = 0.02;

/** Offset of the extremum of a parabola through three even samples, −0.5 to 0.5. */
export function parabolaOffset(before: number, at: number, after: number): number {
  const bend = before - 2 * at + after;
  if (bend === 0) return 0;
  const offset = (0.5 * (before - after)) / bend;
  return offset > 0.5 ? 0.5 : Math.max(offset, -0.5);
}

/**
 * Top of a wave; the middle of a flat (clipped) one.
 *
 * @param first earliest and `last` latest sample that may be read
 */
export function topOf(trace: Float64Array, top: number, rise: number, first: number, last: number): number {
  const mask = trace.length - 1;
  const at = trace[top & mask]!;
  let left = top;
  let right = top;
  while (left > first && trace[(left - 1) & mask]! >= at - FLAT * rise) left--;
  while (right < last && trace[(right + 1) & mask]! >= at - FLAT * rise) right++;
  if (right - left >= 3) return (left + right) / 2;
  if (top <= first || top >= last) return top;
  return top + parabolaOffset(trace[(top - 1) & mask]!, at, trace[(top + 1) & mask]!);
}

/**
 * Foot of a wave: the tangent of its steepest rise cut with the level of the minimum before.
 *
 * @returns inner samples, or `null` where there is no rise between `bottom` and `top`
 */
export function footOf(trace: Float64Array, bottom: number, top: number): number | null {
  const mask = trace.length - 1;
  let steepest = 0;
  let at = -1;
  for (let n = bottom + 1; n <= top; n++) {
    const slope = trace[n & mask]! - trace[(n - 1) & mask]!;
    if (slope > steepest) {
      steepest = slope;
      at = n;
    }
  }
  if (at < 0) return null;
  // Slopes sit midway between samples; a parabola through three of them finds the steepest.
  let centre = at - 0.5;
  let level = (trace[at & mask]! + trace[(at - 1) & mask]!) / 2;
  if (at - 1 > bottom && at < top) {
    const before = trace[(at - 1) & mask]! - trace[(at - 2) & mask]!;
    const after = trace[(at + 1) & mask]! - trace[at & mask]!;
    const shift = parabolaOffset(before, steepest, after);
    level += steepest * shift;
    centre += shift;
    steepest -= 0.25 * (before - after) * shift;
  }
  const foot = centre - (level - trace[bottom & mask]!) / steepest;
  return Math.max(foot, bottom);
}

/**
 * Dicrotic notch: the first minimum after the top that a second wave follows.
 *
 * @param last latest sample that may be read
 * @returns inner samples, or `null` where the fall shows no second wave
 */
export function notchOf(trace: Float64Array, top: number, last: number, amplitude: number): number | null {
  const mask = trace.length - 1;
  let low = top;
  for (let n = top + 1; n <= last; n++) {
    const v = trace[n & mask]!;
    if (v < trace[low & mask]!) low = n;
    else if (v > trace[low & mask]! + NOTCH * amplitude) {
      return low + parabolaOffset(trace[(low - 1) & mask]!, trace[low & mask]!, trace[(low + 1) & mask]!);
    }
  }
  return null;
}
