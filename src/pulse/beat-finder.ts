/**
 * Finds beats in the inner stream as it comes. Every wave is weighed by its size and by how its
 * distance to other waves fits the rhythm; the best chain of waves is the beats.
 */
import type { Beat } from "../model/beat.js";
import type { Hertz, Percent, Seconds } from "../model/units.js";
import { createBeatChain } from "./beat-chain.js";
import { createIntervalVotes } from "./beat-interval.js";
import { createUsualSize } from "./beat-level.js";
import { footOf, notchOf, topOf } from "./beat-marks.js";
import { type BeatSettings, beatSettings } from "./beat-settings.js";
import { createWaveCutter, TRACE } from "./beat-waves.js";
import type { InnerSink } from "./inner-stream.js";
import { perfusionIndex } from "./perfusion-index.js";

/** Samples seen before the first decision, s: long enough for two beats of the slowest heart. */
const START = 5;
/** A longer gap makes what was learned before it void, s. */
const FORGET = 3;
/** Waves remembered; there are fewer than 16 per second. */
const WAVES = 256;
/** A notch later than this after the top belongs to something else, s. */
const NOTCH_WITHIN = 0.5;
const MASK = TRACE - 1;

export interface BeatFinderOptions {
  readonly innerRate: Hertz;
  /** Raw light with its true level: beats carry a perfusion index (S3). */
  readonly level: boolean;
  /** Time of inner sample 0, s. */
  readonly start?: Seconds;
}

/**
 * Streaming beat detection, 30 to 220 beats/min.
 *
 * Beats come in order, each about 0.9 s after its peak; in the first 4 s of a record or after a gap
 * of over 3 s they are held until those are over. `end` decides what is pending. A missing sample ends
 * a run: no beat spans it.
 *
 * @param onBeat called for each beat
 */
export function createBeatFinder(
  { innerRate, level, start }: BeatFinderOptions,
  onBeat: (beat: Beat) => void,
  settings: BeatSettings = beatSettings,
): InnerSink {
  const begin = start ?? 0;
  const cutter = createWaveCutter(Math.max(1, Math.round(settings.riseTime * innerRate)));
  const votes = createIntervalVotes(settings.firstRepeat);
  const usual = createUsualSize();
  const chain = createBeatChain(settings);
  const levels = new Float64Array(TRACE);
  const tops = new Float64Array(WAVES);
  const bottoms = new Float64Array(WAVES);
  const rises = new Float64Array(WAVES);
  const sizes = new Float64Array(WAVES);
  const back = Math.max(1, Math.round(settings.riseTime * innerRate));
  let learned = 0;
  const expected = { size: 0, interval: 0, trust: 0 };
  const lagSamples = Math.round(settings.lag * innerRate);
  let waves = 0;
  /** Waves up to here are in the chain. */
  let weighed = 0;
  let decided = 0;
  let startUp = Math.round(START * innerRate);
  let lastPresent = -1;

  function keep(): void {
    const id = waves % WAVES;
    tops[id] = cutter.top;
    bottoms[id] = cutter.bottom;
    rises[id] = cutter.rise;
    waves++;
  }

  /** Learns from waves whose fall is known up to sample `last`. */
  function learn(last: number, all: boolean): void {
    while (learned < waves && (all || tops[learned % WAVES]! + back <= last)) {
      const id = learned % WAVES;
      const top = tops[id]!;
      const { trace } = cutter;
      let low = trace[top & MASK]!;
      for (let n = top + 1; n <= Math.min(last, top + back); n++)
        if (trace[n & MASK]! < low) low = trace[n & MASK]!;
      const size = rises[id]! + settings.trend * (trace[top & MASK]! - low);
      sizes[id] = size;
      learned++;
      const time = top / innerRate;
      usual.add(time, size);
      const interval = votes.trust() > 0.4 ? votes.interval() : 0.6;
      const level = usual.level(0.6 * interval, settings.memory);
      cutter.turn = (settings.wiggle * level) / (1 + settings.trend);
      votes.add(time, Math.min(1.5, size / level));
    }
  }

  /** Hands waves that were only learned from to the chain. */
  function weigh(): void {
    for (; weighed < learned; weighed++) {
      const id = weighed % WAVES;
      chain.add(weighed, tops[id]! / innerRate, sizes[id]!);
    }
  }

  function decide(before: number, last: number): void {
    expected.interval = votes.interval();
    expected.trust = Math.min(1, Math.max(0, (votes.trust() - 0.25) / 0.35));
    expected.size = usual.level(0.6 * (expected.trust > 0.4 ? expected.interval : 0.6), settings.memory);
    for (;;) {
      const id = chain.decide(before / innerRate, last / innerRate, expected);
      if (id < 0) return;
      emit(id % WAVES, last);
    }
  }

  function emit(id: number, last: number): void {
    const { trace, runStart } = cutter;
    const top = tops[id]!;
    // Between the beat before and this one lies the lowest point, whatever small waves lie between.
    const bottom = bottoms[id]!;
    const peak = topOf(trace, top, rises[id]!, runStart, last);
    const foot = footOf(trace, bottom, top);
    const amplitude = trace[top & MASK]! - trace[bottom & MASK]!;
    const limit = Math.min(last, top + Math.round(NOTCH_WITHIN * innerRate));
    const notch = notchOf(trace, top, limit, amplitude);
    onBeat({
      foot: Number.isNaN(foot) ? null : ((begin + foot / innerRate) as Seconds),
      peak: (begin + peak / innerRate) as Seconds,
      notch: Number.isNaN(notch) ? null : ((begin + notch / innerRate) as Seconds),
      amplitude,
      perfusionIndex: level ? (perfusionIndex(amplitude, levels[top & MASK]!) as Percent | null) : null,
    });
  }

  function closeRun(): void {
    if (lastPresent < 0) return;
    if (cutter.finish()) keep();
    learn(lastPresent, true);
    if (learned > weighed) weigh();
    decide(Number.POSITIVE_INFINITY, lastPresent);
    chain.reset();
    decided = waves;
  }

  return {
    take({ values, levels: slow, count }) {
      for (let i = 0, n = cutter.taken; i < count; i++, n++) levels[n & MASK] = slow[i]!;
      let i = 0;
      while (i < count) {
        // Run up to the next moment at which something is due.
        let due = count - i;
        if (startUp > 0) due = Math.min(due, startUp);
        if (learned < waves)
          due = Math.min(due, Math.max(1, tops[learned % WAVES]! + back + 1 - cutter.taken));
        if (decided < weighed) {
          due = Math.min(due, Math.max(1, tops[decided % WAVES]! + lagSamples + 1 - cutter.taken));
        }
        const before = cutter.taken;
        const wasMissing = lastPresent !== before - 1;
        i = cutter.scan(values, i, i + due);
        if (cutter.event === "missing") {
          const present = cutter.taken - 1 - before;
          if (present > 0) lastPresent = cutter.taken - 2;
          if (startUp > 0) startUp = Math.max(0, startUp - present);
          if (lastPresent === cutter.taken - 2) closeRun();
          continue;
        }
        void wasMissing;
        const present = cutter.taken - before;
        lastPresent = cutter.taken - 1;
        if (startUp > 0) startUp = Math.max(0, startUp - present);
        if (cutter.event === "wave") keep();
        learn(lastPresent, false);
        if (startUp > 0) continue;
        if (learned > weighed) weigh();
        const limit = lastPresent - lagSamples;
        decide(limit, lastPresent);
        while (decided < weighed && tops[decided % WAVES]! <= limit) decided++;
      }
    },
    end() {
      closeRun();
    },
  };
}
void FORGET;
