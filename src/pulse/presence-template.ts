/**
 * What an upright pulse wave looks like, as harmonics of the beat, foot at phase 0.
 * The generic shape is typical of ten of the twelve marked channels; the others bound the shapes
 * an upper limit has to cover. Knows nothing of samples.
 */

export const harmonicCount = 4;

/** x(φ) = Re Σ G_h · e^{2πihφ}, φ in beats from the foot; sizes relative to the first harmonic. */
export interface Template {
  readonly name: string;
  /** G_h for h = 1…4. */
  readonly re: readonly number[];
  readonly im: readonly number[];
  /** Peak-to-peak height over one beat, in the same relative unit. */
  readonly height: number;
}

/** Builds a template from amplitudes and from phases relative to h times the first, foot shifted to phase 0. */
export function createTemplate(
  name: string,
  amplitudes: readonly number[],
  relative: readonly number[],
): Template {
  const points = 960;
  const wave = (phase: number) =>
    amplitudes.reduce((sum, a, i) => sum + a * Math.cos(2 * Math.PI * (i + 1) * phase + relative[i]!), 0);
  const values = Array.from({ length: points }, (_, n) => wave(n / points));
  const top = values.indexOf(Math.max(...values));
  // The foot is the tangent of the steepest rise before the top cut with the lowest level, as in beat.ts.
  let steepest = top;
  for (let back = 1; back < points / 2; back++) {
    const rise = (n: number) => values[(n + points) % points]! - values[(n - 1 + points) % points]!;
    if (rise(top - back) > rise(steepest)) steepest = top - back;
  }
  const low = Math.min(...values);
  const at = (n: number) => values[(n + points) % points]!;
  const slope = at(steepest) - at(steepest - 1);
  const foot = (steepest - (at(steepest) - low) / slope) / points;
  const phases = amplitudes.map((_, i) => relative[i]! + 2 * Math.PI * (i + 1) * foot);
  return {
    name,
    re: amplitudes.map((a, i) => a * Math.cos(phases[i]!)),
    im: amplitudes.map((a, i) => a * Math.sin(phases[i]!)),
    height: Math.max(...values) - low,
  };
}

/** Typical of ten of the twelve marked channels in `data/`. */
export const genericTemplate = createTemplate("generic", [1, 0.52, 0.24, 0.09], [0, 0.65, 1.4, 2.6]);

/**
 * Shapes an upper limit must cover as well: a rounded wave as behind a narrowing (rounder than any of the
 * marked channels, close to a sine) and two with strong upper harmonics (as in the recordings `data` and `data2`).
 * Without the last, the limit covers the shape of `data2` less often than it says.
 */
export const limitTemplates: readonly Template[] = [
  genericTemplate,
  createTemplate("rounded", [1, 0.25, 0.06, 0.01], [0, 1.4, 2.8, 4]),
  createTemplate("sharp", [1, 1, 1.2, 0.5], [0, 0.15, -0.7, -0.9]),
  createTemplate("peaked", [1, 1.14, 1.23, 0.82], [0, -0.48, -1.17, -1.86]),
];

/** A template with its share of the false alarms allowed; the shares of a family add up to 1. */
export interface WeighedTemplate {
  readonly template: Template;
  readonly share: number;
}

/**
 * What is looked for. The second lies between the shapes of `data` and `data2`, a little rounder than either: 0.2 dB
 * from both where the generic one is 2.7 and 3.7 dB away. By its share the choice costs 0.2 dB on usual shapes and
 * gains 2 to 3 dB on those two. A third, rounder one would gain nothing: a bare sine is 1.3 dB from the generic shape.
 */
export const soughtTemplates: readonly WeighedTemplate[] = [
  { template: genericTemplate, share: 0.75 },
  { template: createTemplate("firm", [1, 0.9, 0.9, 0.5], [0, 0, -0.6, -1.1]), share: 0.25 },
];
