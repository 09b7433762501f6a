/**
 * Average shapes of the marked channels in `data/`: first four harmonics of the median beat, foot to foot.
 * Measured once from the recordings with NumPy's FFT over beats resampled to 24 points. For tests and the accuracy run only.
 */
import { createTemplate, type Template } from "../presence-template.js";

const rows: readonly (readonly [string, readonly number[], readonly number[]])[] = [
  ["bidmc_01", [1, 0.45, 0.27, 0.07], [0, 0.68, 1.42, 2.36]],
  ["a103l", [1, 0.52, 0.21, 0.09], [0, 0.6, 2.27, 2.84]],
  ["noisy_20s", [1, 0.42, 0.2, 0.16], [0, 1.22, 2.72, -2.14]],
  ["P12_baseline_finger", [1, 0.75, 0.44, 0.15], [0, 0.61, 0.61, 1.72]],
  ["P12_baseline_ear", [1, 0.53, 0.22, 0.08], [0, 0.85, 1.4, -2.93]],
  ["P22_baseline_finger", [1, 0.71, 0.4, 0.13], [0, 0.73, 0.8, 1.57]],
  ["P22_baseline_ear", [1, 0.48, 0.23, 0.08], [0, 1.39, 2.34, -2.08]],
  ["red_ir", [1, 0.3, 0.08, 0.01], [0, 1.45, 2.8, -0.8]],
  ["data", [1, 0.98, 1.18, 0.42], [0, 0.33, -0.5, -0.74]],
  ["data2", [1, 1.14, 1.23, 0.82], [0, -0.48, -1.17, -1.86]],
];

export const recordedShapes: readonly Template[] = rows.map(([name, sizes, phases]) =>
  createTemplate(name, sizes, phases),
);
