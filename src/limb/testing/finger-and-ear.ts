/** Real finger and ear of one person at once (`data/`, PhysioKit sample, MIT): the only open recording of two sites. */
import { readFileSync } from "node:fs";
import { type Channel, hertz, seconds } from "../../model/index.js";

/** One row per sample: finger, ear, clock. */
export const rows = readFileSync(
  new URL("../../../data/recordings/P12_baseline.csv", import.meta.url),
  "utf8",
)
  .trim()
  .split("\n")
  .slice(1)
  .map((line) => line.split(",").map(Number));

/** Mean rate by the recording's own clock; the sensors have no true level, so both are display traces (S3). */
export const rate = hertz(258.83);

export function channelNamed(name: string): Channel {
  return {
    name,
    kind: "display-pleth",
    colour: null,
    polarity: "systole-up",
    unit: "",
    rate,
    start: seconds(0),
    samples: rows.length,
    because: "stated by the test",
  };
}
