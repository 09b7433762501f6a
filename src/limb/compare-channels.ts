/** Two channels from samples to the answer: listens to both, chooses the stretches, reads and compares them. */
import type { Beat, Percent, Seconds, Site, Window } from "../model/index.js";
import { chooseStretches, type Stretch, windowsInCommon } from "./choose-stretch.js";
import { compareSides } from "./compare.js";
import type { Comparison } from "./comparison.js";
import type { Declared, SideContext } from "./declared.js";
import { type HeartSource, heartBeats } from "./heart-beats.js";
import { type ChannelStream, type Heard, listen, type Span, spanPieces } from "./listen.js";
import { type Reference, readStretch, type Samples } from "./read-stretch.js";
import type { Reading } from "./reading.js";
import type { SaturationNumber } from "./saturation.js";
import { waveGone } from "./wave-gone.js";

export interface Side {
  readonly pleth: ChannelStream;
  readonly span: Span;
  readonly site: Site | null;
  readonly declared: Declared;
  /** The heart's beats on the same clock; `null` without. */
  readonly heart: HeartSource | null;
  /** SpO2 as the source gives it, for this side; `null` without. */
  readonly saturation: ChannelStream | null;
}

export interface ChannelComparison {
  readonly sound: Reading;
  readonly suspect: Reading;
  readonly comparison: Comparison;
  readonly soundWindows: readonly Window[];
  readonly suspectWindows: readonly Window[];
}

/**
 * The reference for the suspect side is the sound side's own beats where both run on one clock and the sound
 * side is solid, else the heart's beats recorded with the suspect side, else none.
 *
 * @param onShare told now and then how much is done, 0 to 1
 */
export async function compareChannels(
  sound: Side,
  suspect: Side,
  context: SideContext,
  onShare: (share: number) => void = () => {},
): Promise<ChannelComparison> {
  const heardSound = await listen(sound.pleth, sound.span, () => onShare(0.1));
  onShare(0.4);
  const heardSuspect = await listen(suspect.pleth, suspect.span, () => onShare(0.5));
  onShare(0.8);
  // Two times of one recording share a clock but no beat: nothing can be timed between them.
  const together = context.oneClock && windowsInCommon(heardSound.windows, heardSuspect.windows).length > 0;
  const stretches = chooseStretches(heardSound.windows, heardSuspect.windows, together);
  const soundReading = await readSide(sound, heardSound, stretches.sound, null);
  const lead =
    together && soundReading.capture === "solid" ? referenceFrom(soundReading.beats, heardSound.beats) : null;
  const suspectReading = await readSide(suspect, heardSuspect, stretches.suspect, lead);
  const waveGoneElsewhere = waveGone(heardSuspect, stretches.suspect);
  onShare(1);
  return {
    sound: soundReading,
    suspect: suspectReading,
    comparison: compareSides(soundReading, suspectReading, {
      ...context,
      oneClock: together,
      waveGoneElsewhere,
    }),
    soundWindows: heardSound.windows,
    suspectWindows: heardSuspect.windows,
  };
}

async function readSide(
  side: Side,
  heard: Heard,
  stretch: Stretch,
  lead: Reference | null,
): Promise<Reading> {
  const { pleth, heart, saturation, site, declared } = side;
  const from = stretch.from as Seconds;
  const to = stretch.to as Seconds;
  const rWaves = heart === null ? null : await heartBeats(heart, stretch);
  const samples = await samplesOf(pleth, stretch);
  return readStretch({
    channel: pleth.channel,
    site,
    from,
    to,
    samples,
    windows: heard.windows,
    beats: heard.beats,
    reference: lead ?? (rWaves === null ? null : { kind: "ecg", beats: rWaves }),
    rWaves,
    saturation: saturation === null ? null : await numbersOf(saturation, stretch),
    declared,
  });
}

/** Feet of the sound side; a beat without a foot gets the usual distance from its peak. */
function referenceFrom(reading: readonly Beat[], all: readonly Beat[]): Reference {
  const rises = reading
    .flatMap((beat) => (beat.foot === null ? [] : [beat.peak - beat.foot]))
    .sort((a, b) => a - b);
  const usual = rises[rises.length >> 1] ?? 0;
  return { kind: "other-side", beats: all.map((beat) => beat.foot ?? ((beat.peak - usual) as Seconds)) };
}

async function samplesOf(stream: ChannelStream, { from, to }: Stretch): Promise<Samples> {
  const { rate } = stream.channel;
  const values = new Float64Array(Math.ceil((to - from) * rate) + 1);
  let count = 0;
  let first: number | null = null;
  for await (const piece of spanPieces(stream, { from, to })) {
    first ??= piece.time;
    values.set(piece.values, count);
    count += piece.values.length;
  }
  return { values: values.subarray(0, count), first: first ?? from };
}

async function numbersOf(stream: ChannelStream, stretch: Stretch): Promise<SaturationNumber[]> {
  const { rate } = stream.channel;
  const { values, first } = await samplesOf(stream, stretch);
  const numbers: SaturationNumber[] = [];
  values.forEach((value, i) => {
    if (!Number.isNaN(value)) numbers.push({ time: (first + i / rate) as Seconds, value: value as Percent });
  });
  return numbers;
}
