/**
 * Notices within three beats that the pulse is gone, and that it is back. Listens for upstrokes of
 * the size and at the distance the last believable windows had; the beat finder is too thorough to be that quick.
 * Loss of the wave is all it tells: movement can hide it as well (S5), which is what the window's grade is for.
 */
import type { Beat } from "../model/beat.js";
import type { CaptureGrade, Loss } from "../model/capture.js";
import type { Hertz, Seconds } from "../model/units.js";
import type { InnerBlock } from "./inner-stream.js";
import type { TraceMemory } from "./trace-memory.js";

/** A rise is what the trace gains within this time, s: the upstroke of a pulse. */
const riseSeconds = 0.15;
/** A rise is the largest of its surroundings once this much has passed without a larger one, s. */
const settleSeconds = 0.12;
/** The inner stream is this much behind the raw samples, s. */
const behind = 0.12;
/** Rises from this to that share of the usual one count as pulses: small early beats, deep breaths, a changed gain. */
const least = 0.3;
const greatest = 4;
/**
 * Silence that is a loss, in usual intervals: at least the first, up to the second where the rhythm is so
 * uneven that 1.5 times its longest interval says so. With the delays above it stays within 3.
 */
const silence = 2.4;
const unevenSilence = 2.75;
const unevenShare = 1.5;
/** The stretch of an upstroke that is compared with the usual one begins this long before its largest rise, s. */
const leadSeconds = 0.22;
/** Correlation with the usual upstroke from which a rise counts. */
const alike = 0.8;
/** How far each pulse moves the usual rise towards its own: sizes can change fivefold within six beats. */
const adapt = 0.35;
/** A rise that has not begun to fall after this time, or this share of an interval, was a step and no pulse, s. */
const fallSeconds = 0.4;
const fallShare = 0.5;
/** Pulses in a row that are a return, fewer if they are very alike and at the usual distance. */
const returning = 3;
const returningAlike = 2;
const veryAlike = 0.92;
/** How far their distances may be from the usual one, and how unlike their sizes may be. */
const nearest = 0.4;
const near = 0.7;
const far = 1.4;
const farthest = 2.2;
const unlike = 3;
/** Without a believable window for this long the watch stops, s. */
const forgetSeconds = 15;
/** While windows are solid, the usual values are learned anew this often, s; after a shaky one at once. */
const learnSeconds = 10;
/** Beats the usual values are taken from at least. */
const fewest = 3;

// States.
const idle = 0;
const present = 1;
const gone = 2;

export interface LossWatch {
  take(block: InnerBlock): void;
  /**
   * Tells the grade of a window once it is known, at the same place in the stream whatever the blocks.
   *
   * @param beats of the last seconds, in order; those from `from` to `to` are learned from if believable
   */
  window(capture: CaptureGrade, from: number, to: number, beats: readonly Beat[]): void;
  /** Whether the pulse is lost just now. */
  lost(): boolean;
}

/** @param sink called when a loss is seen (`back` null) and again when the pulse is back */
export function createLossWatch(rate: Hertz, trace: TraceMemory, sink: (loss: Loss) => void): LossWatch {
  const span = Math.max(1, Math.round(riseSeconds * rate));
  const settle = Math.max(1, Math.round(settleSeconds * rate));
  const lead = Math.round(leadSeconds * rate);
  const usual = new Float64Array(lead + settle + 1);
  const ring = new Float64Array(64).fill(Number.NaN);
  const mask = ring.length - 1;
  // An object, not single variables: its numbers are changed in place and nothing is allocated.
  const s = {
    state: 0,
    n: 0,
    /** Usual rise, channel units, and usual interval, samples. */
    rise: Number.NaN,
    interval: Number.NaN,
    patience: Number.NaN,
    /** Largest rise of a group not yet settled, and its place. */
    best: 0.5,
    bestAt: -1,
    last: 0,
    /** The upstroke before, if the last one turns out to be a step; when that is looked at, and its top. */
    before: 0,
    checkAt: -1,
    top: 0.5,
    /** How much of its rise a pulse has usually lost again after how many samples. */
    fall: 0.5,
    fallTime: 1,
    lost: 0.5,
    seen: 0.5,
    believedAt: 0,
    learnedAt: 0,
    hits: 0,
    strong: 0,
    firstHit: 0,
    lowHit: 0.5,
    highHit: 0.5,
  };
  s.best = 0;

  const time = (n: number) => (n / rate) as Seconds;

  /** The top that follows a rise. */
  function topAfter(n: number): number {
    let top = n;
    for (let k = n + 1; k <= n + settle; k++) if (trace.sample(k) > trace.sample(top)) top = k;
    return top;
  }

  /** Correlation of the trace about a largest rise with the usual upstroke. */
  function likeness(at: number): number {
    // The ring holds 64 samples, the stretch at most 33 that end `settle` or less before now.
    let mean = 0;
    for (let i = 0; i < usual.length; i++) mean += ring[(at - lead + i) & mask]!;
    mean /= usual.length;
    let power = 0;
    let cross = 0;
    for (let i = 0; i < usual.length; i++) {
      const x = ring[(at - lead + i) & mask]! - mean;
      power += x * x;
      cross += x * usual[i]!;
    }
    return cross / Math.sqrt(power);
  }

  function upstroke(at: number, rise: number): void {
    const like = rise > greatest * s.rise ? 0 : likeness(at);
    if (!(like >= alike)) return;
    const distance = at - s.last;
    if (s.state === present) {
      if (distance < nearest * s.interval) return;
      s.before = s.last;
      s.last = at;
      s.checkAt = at + s.fallTime;
      s.top = trace.sample(topAfter(at));
      s.rise += adapt * (Math.min(2 * s.rise, Math.max(0.6 * s.rise, rise)) - s.rise);
      return;
    }
    if (distance < nearest * s.interval) return;
    const low = Math.min(s.lowHit, rise);
    const high = Math.max(s.highHit, rise);
    const goesOn = s.hits > 0 && distance <= farthest * s.interval && high <= unlike * low;
    const usualDistance = distance >= near * s.interval && distance <= far * s.interval;
    s.hits = goesOn ? s.hits + 1 : 1;
    s.strong = like < veryAlike ? 0 : goesOn && usualDistance ? s.strong + 1 : 1;
    if (!goesOn) s.firstHit = at;
    s.lowHit = goesOn ? low : rise;
    s.highHit = goesOn ? high : rise;
    s.last = at;
    if (s.hits >= returning || s.strong >= returningAlike) comeBack(topAfter(s.firstHit));
  }

  function comeBack(at: number): void {
    s.state = present;
    sink({ from: s.lost as Seconds, seen: s.seen as Seconds, back: time(at), backSeen: now() });
  }

  function lose(): void {
    s.state = gone;
    s.lost = time(topAfter(s.last));
    s.seen = now();
    s.hits = 0;
    s.strong = 0;
    sink({ from: s.lost as Seconds, seen: s.seen as Seconds, back: null, backSeen: null });
  }

  function now(): Seconds {
    return (s.n / rate + behind) as Seconds;
  }

  /** Where a beat gains most within `riseSeconds`; −1 if it does not rise. */
  function largestRise(beat: Beat): number {
    const top = Math.round(beat.peak * rate);
    let largest = 0;
    let at = -1;
    for (let k = Math.floor((beat.foot ?? beat.peak - riseSeconds) * rate); k <= top; k++) {
      const rise = trace.sample(k) - trace.sample(k - span);
      if (rise > largest) {
        largest = rise;
        at = k;
      }
    }
    return at;
  }

  /** The mean upstroke, of zero mean and unit length. */
  function learnUpstroke(places: readonly number[]): void {
    usual.fill(0);
    let sum = 0;
    for (const at of places) for (let i = 0; i < usual.length; i++) usual[i]! += trace.sample(at - lead + i);
    for (const value of usual) sum += value;
    let power = 0;
    for (let i = 0; i < usual.length; i++) {
      usual[i]! -= sum / usual.length;
      power += usual[i]! ** 2;
    }
    for (let i = 0; i < usual.length; i++) usual[i]! /= Math.sqrt(power);
  }

  function learn(beats: readonly Beat[], from: number, to: number): boolean {
    const own = beats.filter((beat) => beat.peak >= from && beat.peak < to);
    if (own.length < fewest && s.state === idle)
      own.unshift(...beats.filter((beat) => beat.peak < from).slice(-2));
    const places = own.map(largestRise).filter((at) => at >= lead);
    const rises = places.map((at) => trace.sample(at) - trace.sample(at - span));
    const intervals = own.slice(1).map((beat, i) => beat.peak - own[i]!.peak);
    if (rises.length < 2 || intervals.length < 1) return false;
    intervals.sort((a, b) => a - b);
    const middle = intervals[intervals.length >> 1]!;
    const longest = Math.min(intervals.at(-1)!, farthest * middle);
    learnUpstroke(places);
    s.fallTime = Math.round(Math.min(fallSeconds, fallShare * middle) * rate);
    s.fall = places.reduce((sum, at, i) => {
      return sum + (trace.sample(topAfter(at)) - trace.sample(at + s.fallTime)) / rises[i]! / places.length;
    }, 0);
    rises.sort((a, b) => a - b);
    s.rise = rises[rises.length >> 1]!;
    s.interval = middle * rate;
    s.patience = Math.min(unevenSilence * middle, Math.max(silence * middle, unevenShare * longest)) * rate;
    return true;
  }

  return {
    take(block) {
      const { values, count } = block;
      for (let i = 0, n = block.first; i < count; i++, n++) {
        const x = values[i]!;
        const rise = x - ring[(n - span) & mask]!;
        ring[n & mask] = x;
        if (s.state === idle) continue;
        s.n = n;
        if (rise > s.best) {
          s.best = rise;
          s.bestAt = n;
        } else if (s.bestAt >= 0 && n - s.bestAt >= settle) {
          upstroke(s.bestAt, s.best);
          s.bestAt = -1;
          s.best = least * s.rise;
        }
        if (n === s.checkAt && s.state === present && s.top - x < least * s.fall * s.rise) {
          // Half a pulse: steps bring the watch no farther, while pulses on a rising base still hold it off.
          s.last = Math.round((s.last + s.before) / 2);
        }
        if (Number.isNaN(x)) s.last++;
        if (s.state === present && s.bestAt < 0 && n - s.last > s.patience) lose();
      }
    },
    window(capture, from, to, beats) {
      const believable = capture === "solid" || (capture === "shaky" && s.state === present);
      if (!believable) {
        if (s.state === present && to - s.believedAt > forgetSeconds) s.state = idle;
        return;
      }
      if (s.state === gone) {
        // The upstrokes were too unlike the old ones, but pulses they are.
        const first = beats.find((beat) => beat.peak >= from && beat.peak > s.seen);
        if (first === undefined) return;
        if (!learn(beats, from, to)) return;
        s.learnedAt = to;
        s.last = Math.round(beats.at(-1)!.peak * rate);
        s.n = trace.length() - 1;
        comeBack(Math.round(first.peak * rate));
      } else if (capture === "solid" && s.state === present && to - s.learnedAt < learnSeconds) {
        s.believedAt = to;
        return;
      } else if (learn(beats, from, to)) {
        s.learnedAt = to;
        if (s.state === idle) {
          s.last = Math.round(beats.findLast((beat) => beat.peak < to)!.peak * rate);
          // The upstrokes since then were not listened for: give them the benefit of the doubt.
          s.last = Math.max(s.last, trace.length() - 1 - Math.round(s.interval));
          s.state = present;
          s.bestAt = -1;
        }
      } else return;
      if (s.bestAt < 0) s.best = least * s.rise;
      s.believedAt = to;
    },
    lost: () => s.state === gone,
  };
}
