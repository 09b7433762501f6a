/**
 * Finds beats in the inner stream as it comes. Every wave is weighed by its size and by how its
 * distance to other waves fits the rhythm; the best chain of waves is the beats.
 */
import type { Beat } from "../model/beat.js";
import type { Hertz, Seconds } from "../model/units.js";
import { createBeatChain } from "./beat-chain.js";
import { createIntervalVotes } from "./beat-interval.js";
import { footOf, notchOf, topOf } from "./beat-marks.js";
import { type BeatSettings, beatSettings } from "./beat-settings.js";
import { createUsualSize } from "./beat-size.js";
import { createWaveCutter, createWaveRing, TRACE } from "./beat-waves.js";
import type { InnerSink } from "./inner-stream.js";
import { perfusionIndex } from "./perfusion-index.js";

/** A wave is decided this long after its top, s: time enough to see most of what follows. */
const LAG = 0.75;
/** Samples seen before the first decision, s: enough for two beats of the slowest heart. */
const START = 5;
/** A longer gap makes void what was learned before it, s. */
const FORGET = 3;
/** Without a wave for this long, the trace has become smaller than thought, s. */
const QUIET = 1;
/** Interval assumed while no rhythm is trusted, s. */
const UNKNOWN = 0.6;
/** Trust from which the found interval is taken for it. */
const KNOWN = 0.4;
/** Share of the interval within which only the greatest wave counts towards the usual size. */
const APART = 0.6;
/** Share of repeats that are as expected below which a rhythm has no weight, and from which it has all. */
const NO_RHYTHM = 0.25;
const FULL_RHYTHM = 0.6;
/** A notch later than this after the top belongs to something else, s. */
const NOTCH_WITHIN = 0.5;
/** How far a flat top is followed to both sides, s: too short to reach a neighbouring beat. */
const FLAT_WITHIN = 0.15;
const MASK = TRACE - 1;

export interface BeatFinderOptions {
  readonly innerRate: Hertz;
  /** Raw light with its true level: beats carry a perfusion index (S3). */
  readonly level: boolean;
  /** Time of inner sample 0, s; 0 if left out. */
  readonly start?: Seconds;
}

/**
 * Streaming beat detection, 30 to 220 beats/min.
 *
 * Beats come in order, each 0.75 s of inner samples after its peak; in the first 5 s of a record, and of what follows a
 * gap of over 3 s, they are held until those are over. `end` decides what is pending. A missing sample ends
 * a run: no beat spans it, and what came before it is decided at once.
 *
 * @param onBeat called with each beat; times in s, amplitude in channel units
 */
export function createBeatFinder(
  { innerRate, level, start }: BeatFinderOptions,
  onBeat: (beat: Beat) => void,
  settings: BeatSettings = beatSettings,
): InnerSink {
  const begin = start ?? 0;
  const inSamples = (time: number) => Math.round(time * innerRate);
  const back = Math.max(1, inSamples(settings.riseTime));
  const lag = inSamples(LAG);
  const quiet = inSamples(QUIET);
  const cutter = createWaveCutter(back);
  const { trace } = cutter;
  cutter.turn = 0;
  const levels = new Float64Array(TRACE);
  const waves = createWaveRing();
  const votes = createIntervalVotes(innerRate, settings.firstRepeat);
  const usual = createUsualSize();
  const chain = createBeatChain(innerRate, settings);
  // Not 0: fields that start whole would change their kind at the first fraction.
  const expected = { size: 0.5, interval: 0.5, trust: 0.5 };
  const memory = settings.memory * innerRate;
  /** Waves cut and learned from so far. */
  let cut = 0;
  let learned = 0;
  /** Samples still to be seen before the first decision. */
  let startUp = inSamples(START);
  /** Last inner sample that was not missing. */
  let present = -1;
  let quietUntil = quiet;
  /** Samples taken at which the next thing is due; passed means not yet known. */
  let due = 0;

  function keep(): void {
    waves.put(cut++, cutter);
    quietUntil = cutter.taken + quiet;
  }

  /** How much a wave stands out of the line its surroundings lie on: a trend adds to one flank what it takes from the other. */
  function sizeOf(wave: number, last: number): number {
    const top = waves.top(wave);
    const high = trace[top & MASK]!;
    const until = Math.min(last, top + back);
    let low = high;
    for (let n = top + 1; n <= until; n++) if (trace[n & MASK]! < low) low = trace[n & MASK]!;
    return waves.rise(wave) + high - low;
  }

  /** Learns from waves whose fall is known up to sample `last`. */
  function learn(last: number, all: boolean): void {
    while (learned < cut && (all || waves.top(learned) + back <= last)) {
      const time = waves.top(learned);
      const size = sizeOf(learned, last);
      usual.add(time, size);
      const known = votes.trust() > KNOWN ? votes.interval() : UNKNOWN * innerRate;
      expected.size = usual.size(APART * known, memory);
      // Half, because a size is a rise and a fall.
      cutter.turn = 0.5 * settings.wiggle * expected.size;
      votes.add(time, Math.min(1.5, size / expected.size));
      const trust = (votes.trust() - NO_RHYTHM) / (FULL_RHYTHM - NO_RHYTHM);
      expected.trust = Math.min(1, Math.max(0, trust));
      expected.interval = votes.interval();
      chain.add(time, size);
      learned++;
    }
  }

  /** Decides the waves up to sample `before`. */
  function decide(before: number, last: number): void {
    for (let next = chain.pending(); next >= 0 && next <= before; next = chain.pending()) {
      const wave = chain.decide(last, expected);
      if (wave >= 0) emit(wave, last);
    }
  }

  function emit(wave: number, last: number): void {
    const top = waves.top(wave);
    const bottom = waves.bottom(wave);
    const reach = inSamples(FLAT_WITHIN);
    const first = Math.max(cutter.runStart, top - reach);
    const peak = topOf(trace, top, waves.rise(wave), first, Math.min(last, top + reach));
    const foot = footOf(trace, bottom, top);
    const amplitude = trace[top & MASK]! - trace[bottom & MASK]!;
    const notch = notchOf(trace, top, Math.min(last, top + inSamples(NOTCH_WITHIN)), amplitude);
    onBeat({
      // On wild traces the constructions can cross: then there is no such mark.
      foot: foot === null || foot > peak ? null : ((begin + foot / innerRate) as Seconds),
      peak: (begin + peak / innerRate) as Seconds,
      notch: notch === null || notch <= peak ? null : ((begin + notch / innerRate) as Seconds),
      amplitude,
      perfusionIndex: level ? perfusionIndex(amplitude, levels[top & MASK]!) : null,
    });
  }

  /** Nothing more will come of this run of samples. */
  function closeRun(): void {
    if (present < 0) return;
    if (cutter.finish()) keep();
    learn(present, true);
    decide(present, present);
    chain.breakOff();
  }

  function forget(): void {
    votes.reset();
    usual.reset();
    cutter.turn = 0;
    startUp = inSamples(START);
  }

  /** Number of samples taken at which the next thing is due. */
  function dueAt(): number {
    let due = quietUntil;
    if (startUp > 0) due = Math.min(due, cutter.taken + startUp);
    else if (chain.pending() >= 0) due = Math.min(due, chain.pending() + lag + 1);
    return Math.max(due, cutter.taken + 1);
  }

  return {
    take({ values, levels: slow, count }) {
      if (level) for (let i = 0, n = cutter.taken; i < count; i++, n++) levels[n & MASK] = slow[i]!;
      let i = 0;
      while (i < count) {
        const before = cutter.taken;
        if (present >= 0 && before - 1 - present > FORGET * innerRate && !Number.isNaN(values[i]!)) forget();
        if (due <= before) due = dueAt();
        i = cutter.scan(values, i, Math.min(count, i + due - before));
        const { event, taken } = cutter;
        const gained = event === "missing" ? taken - 1 - before : taken - before;
        if (gained > 0) {
          present = before + gained - 1;
          startUp = Math.max(0, startUp - gained);
        }
        // The end of a block is no moment of its own: nothing may depend on where it falls.
        if (event === "none" && taken < due) break;
        due = 0;
        if (event === "missing") {
          if (present === taken - 2) closeRun();
          quietUntil = taken + quiet;
          continue;
        }
        if (event === "wave") keep();
        else if (taken >= quietUntil) {
          cutter.turn *= 0.5;
          quietUntil = taken + quiet;
        }
        learn(present, false);
        if (startUp === 0) decide(present - lag, present);
      }
    },
    end() {
      closeRun();
    },
  };
}
