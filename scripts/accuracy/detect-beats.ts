/** Runs the project's conditioner and beat finder over a whole trace. */

import type { Beat } from "../../src/model/beat.js";
import { hertz } from "../../src/model/units.js";
import { createBeatFinder } from "../../src/pulse/beat-finder.js";
import { type BeatSettings, beatSettings } from "../../src/pulse/beat-settings.js";
import { createConditioner } from "../../src/pulse/conditioner.js";
import type { InnerSink } from "../../src/pulse/inner-stream.js";

export function detectBeats(
  values: Float64Array,
  rate: number,
  settings: BeatSettings = beatSettings,
): readonly Beat[] {
  const beats: Beat[] = [];
  let finder: InnerSink;
  const conditioner = createConditioner(
    { rate: hertz(rate), polarity: "systole-up" },
    { take: (block) => finder.take(block), end: () => finder.end() },
  );
  finder = createBeatFinder(
    { innerRate: conditioner.innerRate, level: false },
    (beat) => beats.push(beat),
    settings,
  );
  conditioner.push(values);
  conditioner.end();
  return beats;
}
