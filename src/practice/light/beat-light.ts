/** What is reckoned from the light of one beat. */

/**
 * Perfusion index of one beat, percent.
 * @param min  least and
 * @param max  most light in the beat, and
 * @param mean its mean, any one unit with a true zero; above 0
 */
export function perfusionIndexOf(min: number, max: number, mean: number): number {
  return (100 * (max - min)) / mean;
}

/** R: perfusion index of red over that of infrared, same beat. Not finite if there is no infrared pulse. */
export function ratioOfRatios(redIndex: number, infraredIndex: number): number {
  return redIndex / infraredIndex;
}

/**
 * Saturation by the textbook line, percent: *uncalibrated*, no device of any kind was fitted to it.
 * May leave 0 to 100; the caller decides what to show then.
 * @see docs: common practice, no source (the line 110 − 25 R of the textbooks)
 */
export function textbookSaturation(ratio: number): number {
  return 110 - 25 * ratio;
}
