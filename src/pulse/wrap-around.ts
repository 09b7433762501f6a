/** Overflow of a converter: the value jumps by a whole word and goes on as before. */

/** Smallest word looked for: 8 bits. */
const smallestWord = 256;
/** How near both ends of the jump must lie to the ends of the word, as a share of it. */
const edgeShare = 0.04;
/** A jump over this share of all values so far is a wrap if the slopes on both sides run against it. */
const fullShare = 0.85;
/** Those slopes per sample, at most, as a share of the jump. */
const slopeShare = 0.1;

/**
 * Whether a jump between two neighbouring samples is an overflow, given one sample on either side.
 * Known by either sign: it joins the ends of a power-of-two range (signed or unsigned codes),
 * or it spans nearly all values met so far while the trace runs the other way before and after.
 *
 * @param whole range of all samples so far
 */
export function isWrapAround(
  before: number,
  from: number,
  to: number,
  after: number,
  whole: number,
): boolean {
  const jump = to - from;
  const size = Math.abs(jump);
  const word = 2 ** Math.round(Math.log2(size));
  const edge = edgeShare * word;
  if (word >= smallestWord && Math.abs(size - word) <= edge) {
    const high = Math.max(from, to);
    if (Math.abs(high - word / 2) <= edge || Math.abs(high - word) <= edge) return true;
  }
  const slopeBefore = from - before;
  const slopeAfter = after - to;
  return (
    size > fullShare * whole &&
    slopeBefore * jump < 0 &&
    slopeAfter * jump < 0 &&
    Math.abs(slopeBefore) < slopeShare * size &&
    Math.abs(slopeAfter) < slopeShare * size
  );
}
